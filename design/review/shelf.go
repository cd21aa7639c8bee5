package review

import (
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"sync"
)

// shelf keeps answers under what they were computed from. It holds at most two lots of shelfRoom: when one is full the older is dropped.
type shelf[T any] struct {
	mutex      sync.Mutex
	young, old map[string]T
}

const shelfRoom = 2048

// take returns the answer kept under a key, or computes it and keeps it. Errors are not kept. Two that ask at once may both compute.
func (s *shelf[T]) take(key string, compute func() (T, error)) (T, error) {
	if kept, ok := s.find(key); ok {
		return kept, nil
	}
	fresh, err := compute()
	if err == nil {
		s.keep(key, fresh)
	}
	return fresh, err
}

func (s *shelf[T]) find(key string) (T, bool) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	kept, ok := s.young[key]
	if !ok {
		kept, ok = s.old[key]
	}
	return kept, ok
}

func (s *shelf[T]) keep(key string, answer T) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if s.young == nil || len(s.young) >= shelfRoom {
		s.young, s.old = map[string]T{}, s.young
	}
	s.young[key] = answer
}

// keyOf writes plain values down to the last bit: numbers, texts, slices and structures of them. Anything else in them is a programming error.
func keyOf(values ...any) string {
	key := make([]byte, 0, 1024)
	for _, v := range values {
		key = appendKey(key, reflect.ValueOf(v))
	}
	return string(key)
}

func appendKey(key []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.Float64:
		return binary.LittleEndian.AppendUint64(key, math.Float64bits(v.Float()))
	case reflect.Int:
		return binary.LittleEndian.AppendUint64(key, uint64(v.Int()))
	case reflect.Bool:
		if v.Bool() {
			return append(key, 1)
		}
		return append(key, 0)
	case reflect.String:
		key = binary.LittleEndian.AppendUint64(key, uint64(v.Len()))
		return append(key, v.String()...)
	case reflect.Slice, reflect.Array:
		key = binary.LittleEndian.AppendUint64(key, uint64(v.Len()))
		for i := range v.Len() {
			key = appendKey(key, v.Index(i))
		}
		return key
	case reflect.Struct:
		for i := range v.NumField() {
			key = appendKey(key, v.Field(i))
		}
		return key
	}
	panic(fmt.Sprintf("review: %s has no key", v.Type()))
}

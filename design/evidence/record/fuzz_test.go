package record_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"mastwright/design/evidence/record"
)

// What is read can be written and read again, and holds what the package promises.
func FuzzCSV(f *testing.F) {
	good := "time,ax,note\n" + strings.Repeat("1,2,\"a\"\"b\"\n", 3)
	for _, seed := range []string{"", good, "t;x\n1,5;2\n2,5;3\n", "# invented\n1,2\n2,3\n", "time\tax\n0\t1\n1\t2\n2\t-inf\n", "a,b\n\n\"", "\xff\xfe", "1e308,1\n-1e308,2\n"} {
		f.Add(seed, false)
		f.Add(seed, true)
	}
	f.Fuzz(func(t *testing.T, text string, thin bool) {
		o := record.Options{Least: 1, Rows: 6, Thin: thin, Skip: thin}
		want := append(record.Maybe(record.AccX, record.Current), record.Want{Role: record.State, Words: true, Optional: true})
		r, err := record.Read(strings.NewReader(text), want, o)
		if err != nil {
			return
		}
		if r.Len() > 6 || r.Len() == 0 {
			t.Fatalf("%d rows", r.Len())
		}
		if s, err := r.Even([]record.Role{record.AccX}, record.EvenOptions{}); err == nil && (!(s.Rate > 0) || s.Len() > 21*r.Len()) {
			t.Fatalf("%v Hz, %d samples from %d rows", s.Rate, s.Len(), r.Len())
		}
		columns, names := [][]float64{}, []string{}
		if r.Time != nil {
			columns, names = append(columns, r.Time), append(names, "time (s)")
			for i := 1; i < len(r.Time); i++ {
				if !(r.Time[i] > r.Time[i-1]) {
					t.Fatalf("times %v", r.Time)
				}
			}
		}
		for _, c := range r.Columns {
			if len(c.Values)+len(c.Words) != r.Len() {
				t.Fatalf("column %+v of %d rows", c, r.Len())
			}
			if c.Values != nil {
				columns, names = append(columns, c.Values), append(names, string(c.Role))
			}
		}
		for _, c := range columns {
			if slices.ContainsFunc(c, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }) {
				t.Fatalf("values %v", c)
			}
		}
		if r.Values(record.AccX) == nil {
			return
		}
		var b bytes.Buffer
		if err := record.WriteTable(&b, "round trip", names, columns); err != nil {
			t.Fatal(err)
		}
		o.Rate = 1 // times that differ in their tenth digit are equal when written
		again, err := record.Read(&b, record.Needs(record.AccX), o)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range again.Values(record.AccX) {
			if was := r.Values(record.AccX)[i]; math.Abs(v-was) > 1e-5*math.Abs(was) { // six digits
				t.Fatalf("row %d: %v became %v", i, was, v)
			}
		}
	})
}

func FuzzWAV(f *testing.F) {
	samples := strings.Repeat("\x01\x80\xff\x7f", 8)
	f.Add([]byte(riff(format(1, 1, 8000, 16) + "data" + le(uint32(32)) + samples)))
	f.Add([]byte(riff(format(1, 2, 44100, 16) + "data" + le(uint32(0)) + samples)))
	f.Add([]byte(riff("LIST" + le(uint32(20)) + "INFOICMT" + le(uint32(8)) + "invented" + format(1, 1, 8000, 16) + "data" + le(uint32(1<<31)) + samples)))
	f.Add([]byte(riff(format(3, 1, 8000, 32))))
	f.Add([]byte("RIFF"))
	f.Fuzz(func(t *testing.T, file []byte) {
		s, err := record.ReadWAV(bytes.NewReader(file), record.Options{})
		if err != nil {
			return
		}
		if s.Len()*len(s.Axes)*2 > len(file) || s.Len() < 8 || len(s.Axes) != len(s.Names) {
			t.Fatalf("%d samples of %d axes out of %d bytes", s.Len(), len(s.Axes), len(file))
		}
		var b bytes.Buffer
		if err := record.WriteWAV(&b, s, "round trip"); err != nil {
			t.Fatal(err)
		}
		again, err := record.ReadWAV(&b, record.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for a := range s.Axes {
			if !slices.Equal(s.Axes[a], again.Axes[a]) || s.Rate != again.Rate {
				t.Fatalf("axis %d changed", a)
			}
		}
	})
}

package solid_test

import (
	"context"
	"testing"
	"time"

	. "mastwright/mesh/solid"
)

func TestParts(t *testing.T) {
	for name, n := range parts() {
		t.Run(name, func(t *testing.T) {
			t0 := time.Now()
			_, r, err := Polygonise(context.Background(), n, Options{})
			t.Logf("%v %+v %v", time.Since(t0), r, err)
		})
	}
}

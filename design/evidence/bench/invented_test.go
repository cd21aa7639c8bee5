package bench_test

import (
	"bytes"
	"io"
	"math"
	"testing"

	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/record"
)

// What is written is read again by the record's reader, marked as invented.
func TestInventedFilesAreMarkedAndReadBack(t *testing.T) {
	read := func(t *testing.T, write func(io.Writer) error, want []record.Want) record.Record {
		t.Helper()
		var one, two bytes.Buffer
		if err := write(&one); err != nil {
			t.Fatal(err)
		}
		if err := write(&two); err != nil || !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("written twice, two files (%v)", err)
		}
		r, err := record.Read(&one, want, record.Options{Least: 3})
		if err != nil {
			t.Fatal(err)
		}
		if !r.Invented {
			t.Error("the file is not marked as invented")
		}
		return r
	}
	t.Run("hang", func(t *testing.T) {
		h := bench.InventedHang{}
		r := read(t, h.Write, record.Needs(record.Mass, record.Deflection))
		for i, l := range h.Loads() {
			if m, d := r.Values(record.Mass)[i], r.Values(record.Deflection)[i]; math.Abs(m-l.Mass) > 1e-6 || math.Abs(d-1000*l.Reading) > 1e-5 {
				t.Errorf("row %d: %g kg %g mm, want %g kg %g mm", i, m, d, l.Mass, 1000*l.Reading)
			}
		}
	})
	t.Run("weigh", func(t *testing.T) {
		r := read(t, bench.InventedWeigh{}.Write, []record.Want{{Role: "part", Words: true}, {Role: record.Mass}, {Role: "designed"}})
		if got := r.Values(record.Mass)[1]; math.Abs(got-29.1) > 1e-9 { // .94 of 31 g on a tenth
			t.Errorf("mast %g g, want 29.1", got)
		}
	})
	t.Run("radio", func(t *testing.T) {
		v := bench.InventedRadio{}
		r := read(t, v.Write, []record.Want{{Role: record.State, Words: true}, {Role: record.Satellites}, {Role: record.Signal}})
		state, _ := r.Column(record.State)
		rows, err := bench.ReadRadio(state.Words, r.Values(record.Satellites), r.Values(record.Signal))
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range v.Rows() {
			if got := rows[i]; got.Device != want.Device || got.On != want.On || math.Abs(got.Signal-want.Signal) > 1e-9 {
				t.Errorf("row %d: %+v, want %+v", i, got, want)
			}
		}
	})
}

package record_test

import (
	"fmt"
	"strings"

	"mastwright/design/evidence/record"
)

func ExampleRead() {
	log := "time;lamp (A);current (A)\n0,0;1;1,5\n0,1;1;2,5\n0,2;1;4\n"
	r, err := record.Read(strings.NewReader(log), record.Needs(record.Current), record.Options{Least: 3})
	fmt.Println(r.Time, r.Values(record.Current), err)
	for _, n := range r.Notes {
		fmt.Println(n)
	}
	// Output:
	// [0 0.1 0.2] [1.5 2.5 4] <nil>
	// time: taken from column "time", guessed from its name
	// current: taken from column "current (A)", guessed from its name
	// time: in s, guessed from a spacing of 0.1
}

func ExampleProblems() {
	log := "time,ax\n0,1\n1,one\n0.5,2\n"
	_, err := record.Read(strings.NewReader(log), record.Needs(record.AccX, record.AccY), record.Options{Name: "tap.csv"})
	fmt.Println(err)
	_, err = record.Read(strings.NewReader(log), record.Needs(record.AccX), record.Options{Name: "tap.csv", Least: 2})
	fmt.Println(err)
	// Output:
	// tap.csv: acc y: no column reads like it; name the column that holds it: the table has "time", "ax"
	// tap.csv:3: ax: "one" is no number; mend or delete the line
}

func ExampleReadMotion() {
	log := "# invented: for the example\nms,gyro_x\n"
	for i := range 10 {
		log += fmt.Sprintf("%d,%d\n", 2*i, i)
	}
	s, err := record.ReadMotion(strings.NewReader(log), record.Options{})
	fmt.Println(s.Kind, s.Rate, s.Len(), s.Invented, err)
	// Output: gyro 500 10 true <nil>
}

func ExampleSaturated() {
	run, clipped := record.Saturated([]float64{0, 3, 9, 16, 16, 16, 16, 12, 11, 0, -3})
	fmt.Println(clipped, run.Value, run.Longest)
	// Output: true 16 4
}

package record_test

import (
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"mastwright/design/evidence/record"
)

// Every case holds the same eight rows: acc x 1.5, -2, 3.25 and so on at 10 ms.
var (
	accX  = []float64{1.5, -2, 3.25, 4, 5e-1, 6, 7, 8}
	times = []float64{0, .01, .02, .03, .04, .05, .06, .07}
)

func rows(format string, timeScale float64, commaDecimals bool) string {
	var b strings.Builder
	for i, v := range accX {
		line := fmt.Sprintf(format, times[i]*timeScale+timeScale, v)
		if commaDecimals {
			line = strings.ReplaceAll(line, ".", ",")
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

func TestReadForms(t *testing.T) {
	cases := []struct {
		name, text string
		o          record.Options
		note       string // a part of one note
	}{
		{name: "commas", text: "time,ax\n" + rows("%.4f,%g", 1, false), note: `from column "ax", guessed`},
		{name: "semicolons and decimal commas", text: "t;Accel X\n" + rows("%.4f;%g", 1, true)},
		{name: "tabs", text: "seconds\tacc_x\n" + rows("%.4f\t%g", 1, false)},
		{name: "quoted", text: "\"time\",\"x acceleration\"\n" + rows("\"%.4f\",\"%g\"", 1, false)},
		{name: "mark inside quotes", text: "time,note,accx\n" + rows("%.4f,\"a, b\",%g", 1, false)},
		{name: "comments", text: "# one\n#two, three\ntime,ax\n# between\n" + rows("%.4f,%g", 1, false)},
		{name: "header as a comment", text: "# time, ax\n" + rows("%.4f,%g", 1, false)},
		{name: "byte order mark and carriage returns", text: "\ufeff" + strings.ReplaceAll("time,ax\n"+rows("%.4f,%g", 1, false), "\n", "\r\n")},
		{name: "lines of other shape first", text: "made by,someone\nmin throttle,1070\n\ntime,ax,b,c\n" + rows("%.4f,%g,1,2", 1, false)},
		{name: "milliseconds by header", text: "time (ms),ax\n" + rows("%.4f,%g", 1e3, false), note: "in ms, as its header says"},
		{name: "microseconds by name", text: "time_us,acc[0]\n" + rows("%.0f,%g", 1e6, false), note: "in us, as its header says"},
		{name: "microseconds guessed", text: "time,ax\n" + rows("%.0f,%g", 1e6, false), o: record.Options{TimeUnit: "us"}},
		{name: "named", text: "time,ax,left\n" + rows("%.4f,99,%g", 1, false), o: record.Options{Columns: map[record.Role]string{record.AccX: "LEFT"}}},
		{name: "by number", text: "time,ax,left\n" + rows("%.4f,99,%g", 1, false), o: record.Options{Columns: map[record.Role]string{record.AccX: "3"}}},
		{name: "no header", text: rows("%.4f,%g", 1, false), note: "guessed from its place"},
		{name: "rate in place of times", text: "ax\n" + rows("%[2]g", 1, false), o: record.Options{Rate: 100}},
		{name: "last line cut", text: "time,ax\n" + rows("%.4f,%g", 1, false) + "1.08", note: "is cut off"},
		{name: "two would fit", text: "time,ax,accx\n" + rows("%.4f,%g,1", 1, false), note: `"accx" would fit too`},
		{name: "invented", text: "# Invented: not measured\ntime,ax\n" + rows("%.4f,%g", 1, false), note: "was invented"},
		{name: "times of day", text: "time,ax\n" + rows("2031-02-03T11:59:%07.4f,%g", 1, false), note: "read as times of day"},
		{name: "rows without a value", text: "time,ax\n.5,\n" + rows("%.4f,%g", 1, false), note: "1 rows without a value"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r, err := record.Read(strings.NewReader(c.text), record.Needs(record.AccX), c.o)
			if err != nil {
				t.Fatal(err)
			}
			if got := r.Values(record.AccX); !slices.Equal(got, accX) {
				t.Errorf("acc x %v, want %v", got, accX)
			}
			for i, got := range r.Time {
				if math.Abs(got-times[i]) > 1e-7 { // a date keeps a tenth of a microsecond
					t.Errorf("time %d is %v s, want %v", i, got, times[i])
				}
			}
			if len(r.Time) != len(times) {
				t.Errorf("%d times, want %d", len(r.Time), len(times))
			}
			if c.note != "" && !strings.Contains(fmt.Sprint(r.Notes), c.note) {
				t.Errorf("notes %v lack %q", r.Notes, c.note)
			}
			if want := c.name == "invented"; r.Invented != want {
				t.Errorf("invented %v, want %v", r.Invented, want)
			}
		})
	}
}

// A date that nobody asked for does not stand in the way; one that is wanted does.
func TestDates(t *testing.T) {
	log := "time;mass;deflection\nmonday;1;2\ntuesday;2;4\n"
	o := record.Options{Least: 2}
	r, err := record.Read(strings.NewReader(log), record.Needs(record.Mass, record.Deflection), o)
	if err != nil || r.Time != nil || r.Len() != 2 || !strings.Contains(fmt.Sprint(r.Notes), `"monday" in column "time" is no time`) {
		t.Errorf("%d rows, times %v, notes %v, error %v", r.Len(), r.Time, r.Notes, err)
	}
	if _, err := record.Read(strings.NewReader(log), record.Needs(record.Time, record.Mass), o); err == nil {
		t.Error("a wanted time in words is accepted")
	}
}

func TestTimeUnitGuessed(t *testing.T) {
	for _, c := range []struct {
		name        string
		start, step float64
		rows        int
		want        float64 // s between rows
	}{
		{"1 kHz in s", 3, .001, 4000, .001},
		{"1 kHz in ms", 17, 1, 5000, .001},
		{"1 kHz in us", 1e6, 1000, 10000, .001},
		{"8 kHz in us", 0, 125, 40000, 125e-6},
		{"10 Hz in ms", 0, 100, 600, .1},
		{"50 Hz in us", 1.5e15, 20000, 1500, .02},
		{"one a second in s", 0, 1, 300, 1},
		{"200 Hz in ns", 0, 5e6, 1000, .005},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			b.WriteString("time,ax\n")
			for i := range c.rows {
				fmt.Fprintf(&b, "%.4f,%d\n", c.start+float64(i)*c.step, i)
			}
			r, err := record.Read(strings.NewReader(b.String()), record.Needs(record.AccX), record.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if got := r.Time[1]; math.Abs(got/c.want-1) > 1e-3 { // stamps near 1e15 keep a quarter of a unit
				t.Errorf("rows %v s apart, want %v; notes %v", got, c.want, r.Notes)
			}
		})
	}
}

func TestReadProblems(t *testing.T) {
	good := rows("%.4f,%g", 1, false)
	cases := []struct {
		name, text string
		line       int
		want       string
	}{
		{"empty", "", 0, "empty"},
		{"16-bit text", "\xff\xfet\x00i\x00", 0, "UTF-8"},
		{"sound", "RIFF\x00\x00\x00\x00WAVEfmt ", 0, "sound recording"},
		{"no such column", "time,height\n" + good, 0, `the table has "time", "height"`},
		{"text in numbers", "time,ax\n" + good + "2,fast\n", 10, `"fast" is no number`},
		{"not a number", "time,ax\n" + good + "2,NaN\n", 10, "NaN is not a finite number"},
		{"infinite", "time,ax\n" + good + "2,-Inf\n", 10, "-Inf is not a finite number"},
		{"too large", "time,ax\n" + good + "2,1e999\n", 10, "1e999 is not a finite number"},
		{"backwards", "time,ax\n" + good + "0.5,1\n", 10, "time runs backwards, from 1.07 to 0.5"},
		{"stamps repeated", "time,ax\n" + good + "1.07,1\n1.07,1\n", 10, "2 of 10 rows repeat the stamp"},
		{"too few", "time,ax\n1,2\n2,3\n", 0, "2 usable rows are too few; record at least 8"},
		{"restarted", "time,ax\n" + good + "time,ax\n", 10, "restarted"},
		{"quote open", "time,ax\n" + good + "2,\"3\n", 10, "quote"},
		{"row too short", "time,ax\n" + good + "2\n3,4\n", 10, "1 of at least 2 fields"},
		{"stamps beyond telling apart", "time (s),ax\n-1e300,1\n" + good, 4, "start the time near 0"},
		{"line too long", "time,ax\n" + good + strings.Repeat("9", 1<<21) + "\n2,3\n", 10, "longer than a million"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := record.Read(strings.NewReader(c.text), record.Needs(record.AccX), record.Options{Name: "log.csv"})
			var p record.Problems
			if !errors.As(err, &p) {
				t.Fatalf("error %v, want problems", err)
			}
			if len(p) != 1 || p[0].Line != c.line || !strings.Contains(p[0].Text, c.want) || p[0].File != "log.csv" {
				t.Errorf("problems %q, want one in line %d with %q", p.Error(), c.line, c.want)
			}
		})
	}
}

// All that is wrong comes at once, in the order of lines, at most five of a kind.
func TestReadAllProblems(t *testing.T) {
	text := "time,ax,ay\n1,a,2\n" + strings.Repeat("2,b,nan\n", 7) + "1.5,1,1\n"
	_, err := record.Read(strings.NewReader(text), record.Needs(record.AccX, record.AccY), record.Options{})
	var p record.Problems
	if !errors.As(err, &p) {
		t.Fatalf("error %v, want problems", err)
	}
	text = p.Error()
	if !strings.Contains(text, "3 more of the same: text in place of a number") || !strings.Contains(text, "2 more of the same: not a finite number") {
		t.Errorf("counts of the rest are missing in\n%s", text)
	}
	if len(p) != 5+5+2 {
		t.Errorf("%d problems, want 12:\n%s", len(p), text)
	}
	r, err := record.Read(strings.NewReader(text0()), record.Needs(record.AccX), record.Options{Skip: true})
	if err != nil || r.Len() != 8 || !strings.Contains(fmt.Sprint(r.Notes), "3 rows with a problem are left out") {
		t.Errorf("skipping: %d rows, notes %v, error %v", r.Len(), r.Notes, err)
	}
}

func text0() string {
	return "time,ax\n.5,x\n.6,nan\n" + rows("%.4f,%g", 1, false) + ".2,1\n"
}

// long is a table of many rows that is made while it is read.
type long struct {
	rows, next int
	rest       []byte
}

func (l *long) Read(p []byte) (int, error) {
	for len(l.rest) < len(p) && l.next <= l.rows {
		if l.next == 0 {
			l.rest = append(l.rest, "time,ax,ay\n"...)
		} else {
			l.rest = fmt.Appendf(l.rest, "%d.%03d,%d,7\n", (l.next-1)/1000, (l.next-1)%1000, (l.next-1)%2)
		}
		l.next++
	}
	if len(l.rest) == 0 {
		return 0, io.EOF
	}
	n := copy(p, l.rest)
	l.rest = append(l.rest[:0], l.rest[n:]...)
	return n, nil
}

func TestManyRows(t *testing.T) {
	const n = 300_000
	for _, c := range []struct {
		name string
		thin bool
		note string
		want float64 // acc x of each kept row: the rows are 0 and 1 in turn
	}{
		{"the rest left out", false, "the first 1000 rows (0.999 s) are kept and 299000 left out", 0},
		{"averaged", true, "300000 rows are averaged 512 by 512 into 585", .5},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			source := &long{rows: n, rest: make([]byte, 0, 1<<20)}
			runtime.ReadMemStats(&before)
			r, err := record.Read(source, record.Needs(record.AccX), record.Options{Rows: 1000, Thin: c.thin})
			runtime.ReadMemStats(&after)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(fmt.Sprint(r.Notes), c.note) {
				t.Errorf("notes %v lack %q", r.Notes, c.note)
			}
			if r.Rows != n || r.Values(record.AccX)[0] != c.want {
				t.Errorf("%d rows, first %v; want %d, %v", r.Rows, r.Values(record.AccX)[0], n, c.want)
			}
			// The file has 4 MB, its head and 1000 rows need under 2. fmt in the source takes the rest: 16 bytes a number.
			if got := (after.TotalAlloc - before.TotalAlloc) >> 20; got > 24 {
				t.Errorf("%d MB were allocated", got)
			}
		})
	}
}

func TestSaturated(t *testing.T) {
	sine := make([]float64, 400)
	for i := range sine {
		sine[i] = max(-.8, min(.6, math.Sin(.1*float64(i))))
	}
	// Counted by hand: asin(.6) is .6435, so a crest stays above .6 for (pi - 2*.6435)/.1 = 18.5 samples.
	run, ok := record.Saturated(sine)
	if !ok || run.Low || run.Value != .6 || run.Longest < 18 || run.Longest > 19 {
		t.Errorf("run %+v, %v; want 18 or 19 rows at .6", run, ok)
	}
	if run, ok := record.Saturated([]float64{0, 0, 0, 0, 1, 1, 1, 1, 1, 0, 0, 0, 0}); ok {
		t.Errorf("a switch is taken as clipped: %+v", run)
	}
}

func BenchmarkRead(b *testing.B) {
	for b.Loop() {
		r, err := record.Read(&long{rows: 1_000_000}, record.Needs(record.AccX), record.Options{})
		if err != nil || r.Len() != 1_000_000 {
			b.Fatal(r.Len(), err)
		}
	}
}

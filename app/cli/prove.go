package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"mastwright/app/build"
	"mastwright/app/prove"
	"mastwright/design"
	"mastwright/design/evidence/record"
	"mastwright/materials"
)

type proveCommand struct {
	Weigh    proveWeigh    `cmd:"" help:"Weigh the printed parts: how dense the print is."`
	Caliper  proveCaliper  `cmd:"" help:"Measure dimensions of the parts: scale, and what holes want."`
	Tap      proveTap      `cmd:"" help:"Read the ringing of a tapped mount: its first mode, the modulus."`
	Hang     proveHang     `cmd:"" help:"Hang masses on the mount: its stiffness, the modulus."`
	Throttle proveThrottle `cmd:"" help:"Read the compass against the current: the leads' field."`
	Pointing provePointing `cmd:"" help:"Find from shown headings how the compass is mounted."`
	Hover    proveHover    `cmd:"" help:"Read rotor speed and vibration out of a steady hover."`
	Turn     proveTurn     `cmd:"" help:"Read a compass turned through all attitudes: what disturbs it."`
	Radio    proveRadio    `cmd:"" help:"Say what each device costs the receiver."`
	List     proveList     `cmd:"" help:"List the measured values that a design uses."`
	Withdraw proveWithdraw `cmd:"" help:"Take a measured value out of a design."`
	Example  proveExample  `cmd:"" help:"Write a record that suits the design, made up and marked so."`
}

// useFlags are what every test is told besides its record.
type useFlags struct {
	JSON    bool   `help:"Print one JSON object instead of the text."`
	Use     bool   `help:"Enter what was measured; needs --out."`
	Out     string `placeholder:"FILE" help:"Design file to write with --use. An existing one is left alone."`
	Date    string `placeholder:"DAY" help:"Day of the test, year-month-day; today when not given."`
	Spool   string `help:"Spool that was printed from, kept with the value."`
	Printer string `help:"Printer that printed it, kept with the value."`
	Keep    string `placeholder:"FILE" help:"Write the measured material into a materials file of your own. An existing one is left alone."`
	KeepAs  string `name:"keep-as" placeholder:"ID" help:"ID of the material kept; the library's with the spool when not given."`
}

func (f useFlags) about() prove.About {
	day := f.Date
	if day == "" {
		day = time.Now().Format(time.DateOnly)
	}
	return prove.About{Date: day, Spool: f.Spool, Printer: f.Printer}
}

// check refuses flags that cannot be followed, before anything is computed.
func (f useFlags) check() error {
	var wrong []error
	if f.Date != "" {
		if _, err := time.Parse(time.DateOnly, f.Date); err != nil {
			wrong = append(wrong, fmt.Errorf("--date: %q is no day; write it as 2026-05-02", f.Date))
		}
	}
	switch {
	case f.Use && f.Out == "":
		wrong = append(wrong, errors.New("--use needs the name of a new design file; add --out FILE"))
	case !f.Use && f.Out != "":
		wrong = append(wrong, errors.New("--out is only written with --use; add it"))
	case f.Out != "":
		wrong = append(wrong, absent(f.Out))
	}
	if f.Keep != "" {
		wrong = append(wrong, absent(f.Keep))
	}
	return errors.Join(wrong...)
}

// recordFlags say how a record is read.
type recordFlags struct {
	Column   map[string]string `placeholder:"ROLE=NAME" help:"Column of a role, by header or number from 1, such as 'mag x=bx'; may be repeated."`
	TimeUnit string            `name:"time-unit" enum:"s,ms,us,ns,guess" default:"guess" help:"Unit of the time column: s, ms, us or ns."`
	Rate     float64           `placeholder:"HZ" help:"Samples a second; the time column is then not looked at."`
	Skip     bool              `help:"Leave rows with a problem out instead of refusing the record."`
}

func (f recordFlags) options(name string) record.Options {
	o := record.Options{Name: name, Rate: f.Rate, Skip: f.Skip, Columns: map[record.Role]string{}}
	for role, column := range f.Column {
		o.Columns[record.Role(role)] = column
	}
	if f.TimeUnit != "guess" {
		o.TimeUnit = f.TimeUnit
	}
	return o
}

// opened hands a record's file to a reader of it, which streams.
func opened(name string, read func(r io.Reader) error) error {
	file, err := os.Open(name)
	if err != nil {
		return fmt.Errorf("%s: %s; give the name of a record, or write one with mastwright prove example", name, reason(err))
	}
	return errors.Join(read(file), file.Close())
}

// proven is a test's answer, with what is to be done with it.
type proven struct {
	design source
	flags  useFlags
	prove.Result
}

// prove runs a test on a design and prints, enters and keeps its result. The exit code is Failing when a check that did not fail
// before does with what was measured.
func (s *session) prove(file string, flags useFlags, test func(doc *design.Document) (prove.Result, error)) error {
	if err := flags.check(); err != nil {
		return err
	}
	from, err := readDesign(file)
	if err != nil {
		return err
	}
	result, err := test(from.doc)
	if err != nil {
		return err
	}
	p := proven{from, flags, result}
	done, err := p.enter()
	if err != nil {
		return err
	}
	if flags.JSON {
		err = build.EncodeJSON(s.out, newProofRecord(result))
	} else {
		p.print(s.out, done)
	}
	if err == nil && result.Fails() {
		err = exit(Failing)
	}
	return err
}

// enter writes the design with the findings and the material that is kept, where that was asked: neither where the
// material cannot be kept. It says what was written.
func (p proven) enter() (done []string, err error) {
	var kept bytes.Buffer
	if p.flags.Keep != "" {
		m, err := prove.Kept(p.design.doc, p.Findings, p.flags.KeepAs)
		if err == nil {
			err = materials.Encode(&kept, materials.List{m})
		}
		if err != nil {
			return nil, err
		}
		done = append(done, fmt.Sprintf("%s is written with the material %s; a design reads it with materials.from.", p.flags.Keep, m.ID))
	}
	if p.flags.Use {
		if len(p.Findings) == 0 {
			return nil, fmt.Errorf("this test found nothing to enter; %s is not written", p.flags.Out)
		}
		next := p.design.doc.Clone()
		for _, f := range p.Findings {
			if err := next.Use(f.Value, f.Answer); err != nil {
				return nil, err
			}
		}
		if err := p.design.write(p.flags.Out, next); err != nil {
			return nil, err
		}
		done = append(done, fmt.Sprintf("%s is written with what was measured.", p.flags.Out))
	}
	if p.flags.Keep != "" {
		err = writeNew(p.flags.Keep, kept.Bytes())
	}
	return done, err
}

type proveList struct {
	File string `arg:"" help:"Design file."`
	JSON bool   `help:"Print a JSON list instead of the text."`
}

func (c proveList) Run(s *session) error {
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	if c.JSON {
		list := []findingRecord{}
		for _, m := range from.doc.Measured {
			list = append(list, newFindingRecord(design.Finding{Value: m, Answer: answerOf(from.doc, m)}))
		}
		return build.EncodeJSON(s.out, list)
	}
	if len(from.doc.Measured) == 0 {
		fmt.Fprintln(s.out, "Nothing is measured yet. The tests, in the order in which they are done:")
		for _, t := range prove.Tests() {
			fmt.Fprint(s.out, build.Wrap("  "+t.Name, 12, t.How))
		}
		return nil
	}
	for i, m := range from.doc.Measured {
		fmt.Fprint(s.out, build.Wrap(fmt.Sprintf("%2d", i+1), 4, value(m, answerOf(from.doc, m))+": "+m.Source()))
	}
	fmt.Fprintf(s.out, "\nTake one out with mastwright prove withdraw %s N --out FILE.\n", c.File)
	return nil
}

func answerOf(doc *design.Document, m design.Measured) string {
	if m.What != design.MeasuredAnswer {
		return ""
	}
	return doc.Get(m.Of)
}

type proveWithdraw struct {
	File   string `arg:"" help:"Design file."`
	Number int    `arg:"" help:"Number of the value, as mastwright prove list counts them."`
	Out    string `required:"" placeholder:"FILE" help:"Design file to write. An existing one is left alone."`
}

func (c proveWithdraw) Run(s *session) error {
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	next := from.doc.Clone()
	if err := next.Withdraw(c.Number - 1); err != nil {
		return err
	}
	if err := from.write(c.Out, next); err != nil {
		return err
	}
	m := from.doc.Measured[c.Number-1]
	text := "out: " + value(m, answerOf(from.doc, m))
	if m.What == design.MeasuredAnswer {
		held := next.Get(m.Of)
		if next.Origin(m.Of) != design.Given {
			held = "what it has without an answer"
		}
		text += "; it holds " + held + " again"
	}
	fmt.Fprint(s.out, build.Wrap("", 2, c.Out+" is written, "+text+".")[2:])
	return nil
}

type proveExample struct {
	Test string `arg:"" help:"Test: weigh, caliper, tap, hang, throttle, pointing, hover, turn or radio; all of them into a folder."`
	File string `arg:"" help:"Design file."`
	Out  string `arg:"" help:"Record to write, or with 'all' the folder: a table, or for tap and hover a sound where it ends in .wav. Existing files are left alone."`
}

func (c proveExample) Run(s *session) error {
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	type record struct{ test, name string }
	records := []record{{c.Test, c.Out}}
	if c.Test == "all" {
		records = nil
		for _, t := range prove.Tests() {
			records = append(records, record{t.Name, filepath.Join(c.Out, t.Name+".csv")})
		}
		records = append(records, record{"tap", filepath.Join(c.Out, "tap.wav")})
		if err := os.MkdirAll(c.Out, 0o777); err != nil {
			return err
		}
	}
	for _, r := range records {
		test, name := r.test, r.name
		sound := strings.EqualFold(filepath.Ext(name), ".wav")
		var b bytes.Buffer
		if err := prove.Example(&b, from.doc, test, prove.ExampleOptions{Sound: sound}); err != nil {
			return err
		}
		if err := writeNew(name, b.Bytes()); err != nil {
			return err
		}
		fmt.Fprintf(s.out, "%s is written: made up, not measured.\n", filepath.ToSlash(name))
	}
	return nil
}

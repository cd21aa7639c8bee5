package cli

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"mastwright/app/prove"
	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/vibration"
)

type proveWeigh struct {
	File     string   `arg:"" help:"Design file."`
	Record   string   `arg:"" optional:"" help:"Table with the columns part and mass (g)."`
	Part     []string `placeholder:"PART=GRAMS" help:"Mass of a part, such as mast=24.6; may be repeated."`
	Division float64  `placeholder:"G" default:"1" help:"Division of the scale in g."`
	recordFlags
	useFlags
}

func (c proveWeigh) Run(s *session) error {
	return s.prove(c.File, c.useFlags, func(doc *design.Document) (prove.Result, error) {
		in := prove.WeighInput{About: c.about(), Division: c.Division / 1e3}
		err := either(c.Record, len(c.Part), "--part", func(r io.Reader) error { return in.ReadWeights(r, c.options(c.Record)) })
		for _, text := range c.Part {
			name, grams, wrong := pair("--part", text, "mast=24.6")
			in.Weights, err = append(in.Weights, prove.Weight{Part: name, Mass: grams / 1e3}), errors.Join(err, wrong)
		}
		if err != nil {
			return prove.Result{}, err
		}
		return prove.Weigh(doc, in)
	})
}

type proveCaliper struct {
	File      string   `arg:"" help:"Design file."`
	Record    string   `arg:"" optional:"" help:"Table with the columns dimension and measured (mm); designed (mm) and kind where it is not one of the design's."`
	Dimension []string `placeholder:"NAME=MM" help:"A dimension of the design as measured, such as 'mast x=97.7'; may be repeated."`
	Division  float64  `placeholder:"MM" default:"0.05" help:"Division of the caliper in mm."`
	recordFlags
	useFlags
}

func (c proveCaliper) Run(s *session) error {
	return s.prove(c.File, c.useFlags, func(doc *design.Document) (prove.Result, error) {
		in := prove.CaliperInput{About: c.about(), Division: c.Division / 1e3}
		err := either(c.Record, len(c.Dimension), "--dimension", func(r io.Reader) error { return in.ReadDimensions(r, c.options(c.Record)) })
		for _, text := range c.Dimension {
			name, mm, wrong := pair("--dimension", text, "'mast x=97.7'")
			in.Dimensions, err = append(in.Dimensions, bench.Dimension{Name: name, Measured: mm / 1e3}), errors.Join(err, wrong)
		}
		if err != nil {
			return prove.Result{}, err
		}
		return prove.Caliper(doc, in)
	})
}

type proveTap struct {
	File    string  `arg:"" help:"Design file."`
	Record  string  `arg:"" help:"Sound (16-bit WAV), or a table of time and acceleration or gyro."`
	Support string  `required:"" enum:"block,foam,held" placeholder:"WHERE" help:"What the mount stood on: block (the mount alone, on a solid block), foam (the aircraft on soft foam), or held (the aircraft held down)."`
	From    float64 `placeholder:"HZ" help:"Lowest frequency looked for."`
	To      float64 `placeholder:"HZ" help:"Highest frequency looked for."`
	Axis    int     `help:"Axis looked at, 1 to 3; all together when not given."`
	recordFlags
	useFlags
}

func (c proveTap) Run(s *session) error {
	return s.prove(c.File, c.useFlags, func(doc *design.Document) (result prove.Result, err error) {
		in := prove.TapInput{About: c.about(), Record: c.options(c.Record),
			TapOptions: vibration.TapOptions{Support: support(c.Support), From: c.From, To: c.To, Axis: c.Axis}}
		err = opened(c.Record, func(r io.Reader) error {
			result, err = prove.Tap(doc, r, in)
			return err
		})
		return result, err
	})
}

func support(word string) vibration.Support {
	return map[string]vibration.Support{"block": vibration.OnBlock, "foam": vibration.OnFoam, "held": vibration.HeldDown}[word]
}

type proveHang struct {
	File     string   `arg:"" help:"Design file."`
	Record   string   `arg:"" optional:"" help:"Table with the columns mass (g or kg) or force (N), and deflection (mm)."`
	Load     []string `placeholder:"GRAMS=MM" help:"A mass and what was read with it, in the order in which they hung; may be repeated."`
	Support  string   `required:"" enum:"block,held" placeholder:"WHERE" help:"What the mount stood on: block (the mount alone, on a solid block), or held (the aircraft held down)."`
	Gauge    string   `enum:"dial,pointer,ruler" default:"dial" help:"What was read: a dial, the spot of a pointer taped to the tray, or a ruler."`
	Division float64  `placeholder:"MM" help:"Division of the scale in mm; 0.01 for a dial and 1 for others when not given."`
	Distance float64  `placeholder:"MM" help:"From the tray to the wall of a pointer's spot, in mm."`
	recordFlags
	useFlags
}

func (c proveHang) Run(s *session) error {
	return s.prove(c.File, c.useFlags, func(doc *design.Document) (prove.Result, error) {
		in := prove.HangInput{About: c.about(), Support: support(c.Support), Division: c.Division / 1e3, Distance: c.Distance / 1e3,
			Gauge: map[string]bench.Gauge{"dial": bench.Dial, "pointer": bench.Pointer, "ruler": bench.Ruler}[c.Gauge]}
		err := either(c.Record, len(c.Load), "--load", func(r io.Reader) error { return in.ReadLoads(r, c.options(c.Record)) })
		for _, text := range c.Load {
			mass, mm, wrong := pair("--load", text, "500=0.12")
			grams, bad := strconv.ParseFloat(mass, 64)
			if bad != nil && wrong == nil {
				wrong = fmt.Errorf("--load: %q is no mass in g; write 500=0.12", mass)
			}
			in.Loads, err = append(in.Loads, bench.Load{Mass: grams / 1e3, Reading: mm / 1e3}), errors.Join(err, wrong)
		}
		if err != nil {
			return prove.Result{}, err
		}
		return prove.Hang(doc, in)
	})
}

// either reads a record where one is named, and wants either that or values that were typed.
func either(name string, typed int, flag string, read func(r io.Reader) error) error {
	switch {
	case name == "" && typed == 0:
		return fmt.Errorf("nothing was measured; name a record, or type values with %s", flag)
	case name != "" && typed > 0:
		return fmt.Errorf("values are in %s and behind %s; give one of them", name, flag)
	case name == "":
		return nil
	}
	return opened(name, read)
}

// pair takes a text like "mast=24.6" apart.
func pair(flag, text, like string) (name string, value float64, err error) {
	at := strings.LastIndexByte(text, '=')
	if at > 0 {
		value, err = strconv.ParseFloat(strings.TrimSpace(text[at+1:]), 64)
	}
	if at <= 0 || err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
		return "", 0, fmt.Errorf("%s: %q is not understood; write it like %s", flag, text, like)
	}
	return strings.TrimSpace(text[:at]), value, nil
}

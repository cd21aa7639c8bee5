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
	"mastwright/design/evidence/compass"
)

type proveThrottle struct {
	File          string  `arg:"" help:"Design file."`
	Record        string  `arg:"" help:"Table of three compass axes and current (A) or throttle."`
	Unit          string  `enum:"guess,T,mT,uT,nT,G,mG" default:"guess" help:"Unit of the axes; guessed from the earth's field when not given."`
	Lead          string  `help:"Lead whose field is corrected; every lead when not given."`
	ThrottleHover float64 `name:"throttle-hover" placeholder:"X" help:"Throttle in the record's measure in hover; needed without a current."`
	ThrottleFull  float64 `name:"throttle-full" placeholder:"X" help:"The same at full throttle."`
	Upright       int     `default:"3" help:"Compass axis that stands upright, 1 to 3."`
	recordFlags
	useFlags
}

func (c proveThrottle) Run(s *session) error {
	return s.prove(c.File, c.useFlags, func(doc *design.Document) (result prove.Result, err error) {
		in := prove.ThrottleInput{About: c.about(), Unit: unitOf(c.Unit), Lead: c.Lead, ThrottleHover: c.ThrottleHover, ThrottleFull: c.ThrottleFull,
			Vertical: c.Upright, Record: c.options(c.Record)}
		if c.Upright < 1 || c.Upright > 3 {
			return result, errors.New("--upright: there are axes 1, 2 and 3")
		}
		err = opened(c.Record, func(r io.Reader) error {
			result, err = prove.Throttle(doc, r, in)
			return err
		})
		return result, err
	})
}

func unitOf(word string) string {
	if word == "guess" {
		return ""
	}
	return word
}

type provePointing struct {
	File      string   `arg:"" help:"Design file."`
	Record    string   `arg:"" optional:"" help:"Table with the columns nose, heading and down, in degrees."`
	Shown     []string `placeholder:"NOSE=DEG" help:"Heading shown with the nose at north, east, south, west or so many degrees, such as east=182; may be repeated."`
	NoseDown  []string `name:"nose-down" placeholder:"NOSE=DEG" help:"The same with the nose 45 degrees down."`
	True      bool     `help:"The nose was turned by a map, true north, not by a compass in the hand."`
	ShownTrue bool     `name:"shown-true" help:"The shown headings count from true north: the flight controller adds the declination."`
	SetTurn   float64  `name:"set-turn" placeholder:"DEG" help:"Turn of the compass that the flight controller was set to, clockwise seen from above."`
	SetDown   bool     `name:"set-upside-down" help:"The flight controller was set to a compass upside down."`
	recordFlags
	useFlags
}

func (c provePointing) Run(s *session) error {
	return s.prove(c.File, c.useFlags, func(doc *design.Document) (prove.Result, error) {
		in := prove.PointingInput{About: c.about(), SetTurn: radians(c.SetTurn), SetUpsideDown: c.SetDown}
		if c.True {
			in.NoseNorth = compass.True
		}
		if c.ShownTrue {
			in.ShownNorth = compass.True
		}
		err := either(c.Record, len(c.Shown)+len(c.NoseDown), "--shown", func(r io.Reader) error { return in.ReadReadings(r, c.options(c.Record)) })
		for _, list := range []struct {
			flag  string
			texts []string
			down  float64
		}{{"--shown", c.Shown, 0}, {"--nose-down", c.NoseDown, radians(45)}} {
			for _, text := range list.texts {
				nose, shown, wrong := pair(list.flag, text, "east=182")
				to, bad := bearing(nose)
				if wrong == nil && bad != nil {
					wrong = fmt.Errorf("%s: %w", list.flag, bad)
				}
				in.Readings, err = append(in.Readings, compass.Reading{Nose: radians(to), Shown: radians(shown), Down: list.down}), errors.Join(err, wrong)
			}
		}
		if err != nil {
			return prove.Result{}, err
		}
		return prove.Point(doc, in)
	})
}

// bearing is where a nose points, degrees clockwise from north.
func bearing(word string) (float64, error) {
	if to, ok := map[string]float64{"north": 0, "east": 90, "south": 180, "west": 270}[word]; ok {
		return to, nil
	}
	to, err := strconv.ParseFloat(word, 64)
	if err != nil || math.IsNaN(to) || math.IsInf(to, 0) {
		return 0, fmt.Errorf("%q is no direction; write north, east, south, west or degrees", word)
	}
	return to, nil
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

type proveHover struct {
	File      string  `arg:"" help:"Design file."`
	Record    string  `arg:"" help:"Sound (16-bit WAV), or a table of time and acceleration or gyro, of a steady hover."`
	Low       float64 `placeholder:"RPM" help:"Lowest speed expected; the design's band when neither is given."`
	High      float64 `placeholder:"RPM" help:"Highest speed expected."`
	Elsewhere bool    `help:"The record is not the flight controller's: its level of vibration is not entered."`
	recordFlags
	useFlags
}

func (c proveHover) Run(s *session) error {
	return s.prove(c.File, c.useFlags, func(doc *design.Document) (result prove.Result, err error) {
		in := prove.HoverInput{About: c.about(), Low: c.Low / 60, High: c.High / 60, Elsewhere: c.Elsewhere, Record: c.options(c.Record)}
		err = opened(c.Record, func(r io.Reader) error {
			result, err = prove.Hover(doc, r, in)
			return err
		})
		return result, err
	})
}

type proveTurn struct {
	File       string `arg:"" help:"Design file."`
	Record     string `arg:"" help:"Table of three compass axes."`
	Unit       string `enum:"guess,T,mT,uT,nT,G,mG" default:"guess" help:"Unit of the axes; guessed from the earth's field when not given."`
	Calibrated bool   `help:"The flight controller's calibration is in the record already."`
	JSON       bool   `help:"Print one JSON object instead of the text."`
	recordFlags
}

func (c proveTurn) Run(s *session) error {
	return s.prove(c.File, useFlags{JSON: c.JSON}, func(doc *design.Document) (result prove.Result, err error) {
		in := prove.TurnInput{Unit: unitOf(c.Unit), Calibrated: c.Calibrated, Record: c.options(c.Record)}
		err = opened(c.Record, func(r io.Reader) error {
			result, err = prove.Turn(doc, r, in)
			return err
		})
		return result, err
	})
}

type proveRadio struct {
	File   string   `arg:"" help:"Design file."`
	Record string   `arg:"" optional:"" help:"Table with the columns state ('all off', 'camera on'), satellites and signal (dB-Hz)."`
	State  []string `placeholder:"STATE=SATS/DB" help:"Satellites and signal in a state, such as 'camera on=14/38.5'; may be repeated."`
	JSON   bool     `help:"Print one JSON object instead of the text."`
	recordFlags
}

func (c proveRadio) Run(s *session) error {
	return s.prove(c.File, useFlags{JSON: c.JSON}, func(*design.Document) (prove.Result, error) {
		var in prove.RadioInput
		err := either(c.Record, len(c.State), "--state", func(r io.Reader) error { return in.ReadRows(r, c.options(c.Record)) })
		var states []string
		var satellites, signal []float64
		for _, text := range c.State {
			state, n, db, wrong := reception(text)
			states, satellites, signal = append(states, state), append(satellites, n), append(signal, db)
			err = errors.Join(err, wrong)
		}
		if err == nil && len(states) > 0 {
			in.Rows, err = bench.ReadRadio(states, satellites, signal)
		}
		if err != nil {
			return prove.Result{}, err
		}
		return prove.Radio(in)
	})
}

// reception takes a text like "camera on=14/38.5" apart.
func reception(text string) (state string, satellites, signal float64, err error) {
	state, figures, _ := strings.Cut(text, "=")
	count, db, _ := strings.Cut(figures, "/")
	satellites, wrong := strconv.ParseFloat(strings.TrimSpace(count), 64)
	signal, bad := strconv.ParseFloat(strings.TrimSpace(db), 64)
	if state == "" || wrong != nil || bad != nil {
		return "", 0, 0, fmt.Errorf("--state: %q is not understood; write it like 'camera on=14/38.5'", text)
	}
	return strings.TrimSpace(state), satellites, signal, nil
}

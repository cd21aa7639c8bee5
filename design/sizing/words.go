package sizing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"mastwright/design"
	"mastwright/design/review"
)

// words says what to do and what comes of it: "Bind the leads 5 mm apart: 16.1° becomes 3.6°. No mass, no other verdict changes."
func (b *bench) words(r Repair) string {
	return b.doing(r.Changes) + ": " + becomes(r) + ". " + weighs(r.Mass) + ", " + b.consequence(r) + "."
}

// doing says what changes of one or two fields are to a builder.
func (b *bench) doing(changes []Change) string {
	var said []string
	for _, c := range changes {
		if text := b.deed(c, changes); text != "" {
			if len(said) > 0 {
				text = lowered(text)
				if strings.HasPrefix(said[0], "Print it ") {
					text = strings.TrimPrefix(text, "print it ")
				}
			}
			said = append(said, text)
		}
	}
	return strings.Join(said, " and ")
}

// deed is one change in the trade's words; "" for one that another change speaks for.
func (b *bench) deed(c Change, with []Change) string {
	f, _ := design.FieldOf(c.Path)
	rises := false
	if was, err := f.Kind.Parse(b.doc.Get(c.Path)); err == nil && f.Form == design.Quantity {
		to, _ := f.Kind.Parse(c.Value)
		rises = to > was
	}
	pick := func(up, down string) string {
		if rises {
			return up
		}
		return down
	}
	leads := b.leads(c.Path)
	switch f.Path {
	case "mast.height":
		return pick("Raise the mast to ", "Lower the mast to ") + c.Value
	case "mast.place":
		return fmt.Sprintf("Stand it on %q", c.Value)
	case "mast.build":
		return "Build it as " + c.Value
	case spool(b.doc):
		return b.made("Print it of ", c.Value)
	case "materials.mast", "materials.foot", "materials.tray", "materials.spacer", "materials.legs":
		return ""
	case "mast.tube.outside":
		return "Take a tube of " + valueOf(with, "mast.tube.outside") + " outside, " + valueOf(with, "mast.tube.bore") + " inside" + b.made(" of ", valueOf(with, "materials.tube"))
	case "mast.plates.thickness":
		return "Cut the plates from " + c.Value + b.made(" of ", valueOf(with, "materials.sheet"))
	case "mast.tube.bore", "materials.tube", "materials.sheet":
		return ""
	case "print.orientation":
		return "Print it " + c.Value
	case "foot.wedge":
		if c.Value == "level" {
			return "Let the foot take up the slope"
		}
		return "Leave the foot's underside flat"
	case "leads[].spacing":
		return pick("Spread ", "Bind ") + leads + " " + c.Value + " apart"
	case "leads[].run":
		switch {
		case c.Value == "stacked":
			return "Lay " + leads + " one wire over the other"
		case c.Value == "side by side":
			return "Lay " + leads + " side by side"
		}
		if pitch := valueOf(with, strings.TrimSuffix(c.Path, "run")+"pitch"); pitch != "" {
			return "Twist " + leads + ", one turn in " + pitch
		}
		return "Twist " + leads
	case "leads[].pitch":
		if valueOf(with, strings.TrimSuffix(c.Path, "pitch")+"run") != "" {
			return ""
		}
		return "Twist " + leads + " to one turn in " + c.Value
	case "leads[].side":
		if c.Value == "under" {
			return "Lead " + leads + " under the mast"
		}
		return "Lead " + leads + " past on the " + c.Value
	case "leads[].offset":
		return "Lead " + leads + " past " + c.Value + " beside the mast"
	case "leads[].height":
		if height, below := strings.CutPrefix(c.Value, "-"); below {
			return pick("Raise ", "Lower ") + leads + " to " + height + " below the plate"
		}
		return pick("Raise ", "Lower ") + leads + " to " + c.Value + " above the plate"
	case "cable.length":
		return pick("Lengthen the cable to ", "Shorten the cable to ") + c.Value
	case "cable.clock":
		return "Run the bus at " + c.Value
	case "cable.pull_up":
		return "Pull the bus up with " + c.Value + " together"
	case "motors.balance":
		return "Have propellers and bells " + c.Value
	case "receiver.fixing":
		return "Hold the receiver by " + c.Value
	}
	title := f.Title
	if f.Group != "" && strings.HasSuffix(c.Path, ".x") && !b.doc.Has(strings.TrimSuffix(c.Path, "x")+"y") {
		title = f.Group
	}
	return title + " " + c.Value
}

// made names a material after a word.
func (b *bench) made(word, id string) string {
	if m, err := b.doc.Library().Find(id); err == nil {
		return word + m.Title
	}
	return ""
}

// valueOf is what a path becomes among changes; "" when it is not among them.
func valueOf(changes []Change, path string) string {
	for _, c := range changes {
		if c.Path == path {
			return c.Value
		}
	}
	return ""
}

// leads names the lead of a path; a lone one needs no name.
func (b *bench) leads(path string) string {
	_, rest, found := strings.Cut(path, "leads[")
	number, _, _ := strings.Cut(rest, "]")
	i, err := strconv.Atoi(number)
	if !found || err != nil || i >= len(b.doc.Leads) || len(b.doc.Leads) == 1 {
		return "the leads"
	}
	return fmt.Sprintf("%q", b.doc.Leads[i].Name)
}

// becomes tells the deciding figure before and after.
func becomes(r Repair) string {
	text := fmt.Sprintf("%s becomes %s", figure(r.Before), figure(r.After))
	if r.After.Name != r.Before.Name {
		text = fmt.Sprintf("%s %s becomes %s %s", r.Before.Name, figure(r.Before), r.After.Name, figure(r.After))
	}
	if r.To == review.Marginal {
		text += ", marginal"
	}
	return text
}

func weighs(grams float64) string {
	switch {
	case grams >= massStep:
		return quantity(grams, "g") + " more"
	case grams <= -massStep:
		return quantity(-grams, "g") + " less"
	}
	return "No mass"
}

func (b *bench) consequence(r Repair) string {
	if len(r.Better) == 0 {
		return "no other verdict changes"
	}
	var names []string
	for _, id := range r.Better {
		names = append(names, b.title(id))
	}
	return listed(names) + map[bool]string{true: " gets", false: " get"}[len(names) == 1] + " better too"
}

// listed joins names as a sentence does.
func listed(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// lowered begins a sentence small to go on from another one.
func lowered(text string) string { return strings.ToLower(text[:1]) + text[1:] }

func figure(f review.Figure) string { return quantity(f.Value, f.Unit) }

// quantity is a value in three digits with its unit.
func quantity(value float64, unit string) string {
	switch {
	case math.IsInf(value, 0):
		return "no limit"
	case unit == "" || strings.HasPrefix(unit, "°"):
		return digits(value) + unit
	}
	return digits(value) + " " + unit
}

func digits(value float64) string {
	near, err := strconv.ParseFloat(strconv.FormatFloat(math.Round(value*1e4)/1e4, 'e', 2, 64), 64)
	if err != nil {
		near = value
	}
	return strconv.FormatFloat(near+0, 'f', -1, 64)
}

// Words are what a window says, a sentence each; the first is enough for a line.
func (w Window) Words() []string {
	title := func(id string) string {
		if c, ok := review.Find(id); ok {
			return c.Title
		}
		return id
	}
	titles := func(ids []string) string {
		var names []string
		for _, id := range ids {
			names = append(names, title(id))
		}
		return listed(names)
	}
	var said []string
	if !w.Open {
		said = append(said, fmt.Sprintf("No height from %g to %g mm is without a failing check.", w.From, w.To))
	} else {
		state := "passes everything"
		if w.MainState == review.Marginal {
			state = "fails nothing"
		}
		line := fmt.Sprintf("Height %g to %g mm %s", w.Main.From, w.Main.To, state)
		if w.Main.From == w.Main.To {
			line = fmt.Sprintf("Height %g mm alone %s", w.Main.From, state)
		}
		var ends []string
		switch {
		case w.Below != "" && w.Below == w.Above:
			ends = append(ends, title(w.Below)+" binds at both ends")
		case w.Below != "" && w.Above != "":
			ends = append(ends, title(w.Below)+" binds below, "+title(w.Above)+" above")
		case w.Below != "":
			ends = append(ends, title(w.Below)+" binds below")
		case w.Above != "":
			ends = append(ends, title(w.Above)+" binds above")
		}
		if w.Below == "" && w.Main.From > w.From {
			ends = append(ends, "lower it cannot be built")
		}
		if w.Above == "" && w.Main.To < w.To {
			ends = append(ends, "higher it cannot be built")
		}
		said = append(said, strings.Join(append([]string{line}, ends...), "; ")+".")
	}
	switch len(w.Exclude) {
	case 0:
	case 1:
		said = append(said, titles(w.Exclude)+" passes at no height.")
	default:
		said = append(said, titles(w.Exclude)+" exclude each other: no height passes "+map[bool]string{true: "both", false: "all of them"}[len(w.Exclude) == 2]+".")
	}
	if w.Opening != nil {
		said = append(said, "What opens a window: "+lowered(w.Opening.Words))
	}
	return said
}

// story tells what sizing found.
func (b *bench) story(z Sized) []string {
	var said []string
	mass := func(r review.Result) string { return quantity(r.Mass, "g") }
	titles := func(ids []string) string {
		var names []string
		for _, id := range ids {
			names = append(names, b.title(id))
		}
		return listed(names)
	}
	marginals := z.After.Count(review.Marginal)
	switch {
	case !z.Passes && len(z.Conflict) == 0:
		said = append(said, fmt.Sprintf("None of the %d designs looked at is without a failing check.", z.Reviews))
	case !z.Passes && len(z.Conflict) == 1:
		said = append(said, fmt.Sprintf("%s in each of the %d designs looked at%s.", b.limits(z.Conflict), z.Reviews, b.closest(z.Conflict[0])))
	case !z.Passes:
		said = append(said, fmt.Sprintf("These limits conflict: %s. None of the %d designs looked at keeps all of them.", b.limits(z.Conflict), z.Reviews))
	case len(z.Changes) == 0:
		said = append(said, fmt.Sprintf("Nothing lighter was found: %s, after %d designs.", mass(z.Before), z.Reviews))
	default:
		state := "everything passes"
		if marginals > 0 {
			state = fmt.Sprintf("nothing fails, %d marginal", marginals)
		}
		said = append(said, fmt.Sprintf("%s becomes %s, and %s.", mass(z.Before), mass(z.After), state))
	}
	if !z.Passes {
		said = append(said, b.loosened(z)...)
	}
	var binding []string
	for _, bind := range z.Binds {
		if bind.Check != "" && !slices.Contains(binding, bind.Check) {
			binding = append(binding, bind.Check)
		}
	}
	if len(binding) > 0 {
		said = append(said, titles(binding)+map[bool]string{true: " binds.", false: " bind."}[len(binding) == 1])
	}
	return said
}

// closest says how near to its limit a check came.
func (b *bench) closest(id string) string {
	i := slices.Index(b.ids, id)
	best := b.present.verdicts[i]
	for _, o := range b.whole() {
		if f := o.verdicts[i]; f.counts() && f.place < best.place {
			best = f
		}
	}
	return "; the nearest has " + figure(best.figure)
}

// loosened says what stands in the best design's way, and what would take it out of it.
func (b *bench) loosened(z Sized) []string {
	var standing []string
	for _, v := range z.After.Verdicts {
		if v.State == review.Fail && v.Accepted == "" {
			standing = append(standing, v.Title+" ("+figure(v.Figure)+")")
		}
	}
	best := "The design as it is, at "
	if len(z.Changes) > 0 {
		best = "The best found, at "
	}
	said := []string{best + quantity(z.After.Mass, "g") + ", fails " + listed(standing) + "."}
	for i, r := range z.Loosen {
		begin := "Another change would loosen it: "
		if i > 0 {
			begin = "Or: "
		}
		said = append(said, begin+lowered(r.Words))
	}
	var paths []string
	for _, id := range z.Conflict {
		if c, ok := review.Find(id); ok {
			paths = append(paths, c.Limits...)
		}
	}
	if len(z.Loosen) == 0 && len(paths) > 0 {
		said = append(said, "No single change loosens it; its limits are the design's own, "+listed(paths)+".")
	}
	return said
}

// limits names checks with the limits beyond which they fail.
func (b *bench) limits(ids []string) string {
	var said []string
	for i, f := range b.present.verdicts {
		if !slices.Contains(ids, b.ids[i]) {
			continue
		}
		text := b.titles[i] + " fails"
		if l := f.figure.Limit; l != nil && !math.IsInf(l.Marginal, 0) {
			text += map[review.Sense]string{review.AtMost: " above ", review.AtLeast: " below "}[l.Sense] + quantity(l.Marginal, f.figure.Unit)
		}
		said = append(said, text)
	}
	return listed(said)
}

package cli

import (
	"fmt"
	"io"

	"mastwright/app/build"
	"mastwright/design"
	"mastwright/design/sizing"
)

type sizeCommand struct {
	File     string   `arg:"" help:"Design file."`
	Out      string   `required:"" placeholder:"FILE" help:"Design file to write. An existing one is left alone."`
	Free     []string `placeholder:"PATH,..." help:"Fields that may change, such as mast.height. Default: height, sections, stock, thickness, fillets, plastic and orientation."`
	Keep     []string `placeholder:"PATH,..." help:"Fields that may not change."`
	Style    []string `placeholder:"STYLE,..." help:"Ways to build that may be chosen: column, tube, twin-plate, legs. Default: the design's own."`
	Material []string `placeholder:"ID,..." help:"Plastics that may be chosen. Default: all."`
}

func (c sizeCommand) Run(s *session) error {
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	sized, err := sizing.Lightest(s, from.doc, sizing.LightestOptions{Free: c.Free, Keep: c.Keep, Styles: c.Style, Materials: c.Material,
		Options: sizing.Options{Progress: func(done, total int) { s.progress.report("sizing", done, total) }}})
	s.progress.clear()
	if err != nil {
		return from.sizingError(err)
	}
	printSized(s.out, from.doc, sized)
	if !sized.Passes {
		fmt.Fprintln(s.out, "Nothing is written.")
		return exit(Failing)
	}
	if err := from.write(c.Out, sized.Document); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%s is written.\n", c.Out)
	return nil
}

// printSized prints what was found, what changed and what keeps it from getting lighter.
func printSized(out io.Writer, before *design.Document, z sizing.Sized) {
	for _, text := range z.Words {
		fmt.Fprint(out, build.Wrap("", 2, text)[2:])
	}
	for _, text := range z.Impossible {
		fmt.Fprint(out, build.Wrap("", 2, "Cannot be built: "+text+".")[2:])
	}
	if z.Passes && len(z.Changes) > 0 {
		fmt.Fprintln(out)
		for _, c := range z.Changes {
			was := before.Get(c.Path)
			if was == "" {
				was = "-"
			}
			fmt.Fprintf(out, "%s%s -> %s\n", build.Pad(c.Path, 26), build.PadLeft(was, 14), c.Value)
		}
		fmt.Fprintln(out)
		for _, b := range z.Binds {
			fmt.Fprint(out, build.Wrap("", 2, stop(b))[2:])
		}
	}
}

// stop says what keeps a field where it is.
func stop(b sizing.Bind) string {
	title := b.Path
	if f, ok := design.FieldOf(b.Path); ok {
		title = f.Title
	}
	if b.Problem != "" {
		return fmt.Sprintf("%s %s cannot be built: %s.", title, b.Value, b.Problem)
	}
	return fmt.Sprintf("%s %s would turn %s to %s.", title, b.Value, b.Check, b.State)
}

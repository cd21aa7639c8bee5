package cli

import (
	"fmt"
	"strings"

	"mastwright/app/build"
	"mastwright/assets"
)

type examplesCommand struct{}

func (c examplesCommand) Run(s *session) error {
	wide := 0
	for _, e := range assets.Examples() {
		wide = max(wide, len(e.Name))
	}
	for _, e := range assets.Examples() {
		fmt.Fprint(s.out, build.Wrap(e.Name, wide+2, e.Story))
	}
	fmt.Fprintln(s.out, "\nWrite one with: mastwright new --example NAME FILE")
	return nil
}

// example finds an example design by its name.
func example(name string) (assets.Example, error) {
	var names []string
	for _, e := range assets.Examples() {
		if e.Name == name {
			return e, nil
		}
		names = append(names, e.Name)
	}
	return assets.Example{}, fmt.Errorf("%q is no example; the examples are %s", name, strings.Join(names, ", "))
}

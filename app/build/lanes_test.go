package build

import (
	"strings"
	"testing"
)

func TestBar(t *testing.T) {
	for _, c := range []struct {
		name             string
		low, place, high float64
		want             string
	}{
		{"best there is", 0, 0, 0, "                      :            |        "},
		{"half of the pass lane", 0.5, 0.5, 0.5, "###########           :            |        "},
		{"at the pass limit", 1, 1, 1, "######################:            |        "},
		{"just over the pass limit", 1.001, 1.001, 1.001, "######################:#           |        "},
		{"half of the marginal lane", 1.5, 1.5, 1.5, "######################:######      |        "},
		{"at the fail limit", 2, 2, 2, "######################:############|        "},
		{"just over the fail limit", 2.0001, 2.0001, 2.0001, "######################:############|#       "},
		{"spread across both limits", 0.5, 1.5, 2.5, "###########===========:======------|----    "},
		{"beyond the end", 3, 3, 3, "######################:############|#######>"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := bar(c.low, c.place, c.high); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

// Every row has the limits in the same Columns, whatever its place: it is read by eye down the page.
func TestLimitsStandInTheSameColumns(t *testing.T) {
	pass, fail := strings.IndexByte(noBar(), ':'), strings.IndexByte(noBar(), '|')
	for i := range 3001 {
		place := float64(i) / 1000
		got := bar(max(0, place-0.7), place, min(3, place+0.7))
		if len(got) != laneCells || got[pass] != ':' || got[fail] != '|' || strings.Count(got, ":") != 1 || strings.Count(got, "|") != 1 {
			t.Fatalf("place %g: %q", place, got)
		}
		beyondPass := strings.ContainsAny(got[pass+1:fail], "#=")
		beyondFail := strings.ContainsAny(got[fail+1:], "#=>")
		if beyondPass != (place > 1) || beyondFail != (place > 2) {
			t.Fatalf("place %g crosses pass %t and fail %t: %q", place, beyondPass, beyondFail, got)
		}
	}
}

package prove_test

import (
	"strings"
	"testing"

	"mastwright/app/prove"
)

// Propellers come off wherever current flows on the bench. A flight says that it is one, and asks for nothing to be held or taken off
// that a flight needs.
func TestCautionsGoWithCurrent(t *testing.T) {
	const off, flight = "propellers off", "local rules"
	wants := map[string]string{"tap": off, "throttle": flight, "pointing": off, "hover": flight, "turn": off, "radio": off}
	for _, test := range prove.Tests() {
		said := strings.Join(test.Cautions(), " ")
		want := wants[test.Name]
		if (said != "") != (want != "") || test.Powered != (want != "") || !strings.Contains(said, want) {
			t.Errorf("%s: powered %t, cautions %q, want %q", test.Name, test.Powered, said, want)
		}
		if want == flight && strings.Contains(said, off) {
			t.Errorf("%s: a flight without propellers: %q", test.Name, said)
		}
	}
}

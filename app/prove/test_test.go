package prove_test

import (
	"strings"
	"testing"

	"mastwright/app/prove"
)

// Propellers come off wherever current flows on the bench, and a flight says that it is one.
func TestCautionsGoWithCurrent(t *testing.T) {
	for _, test := range prove.Tests() {
		said := strings.Join(test.Cautions(), " ")
		if (said != "") != test.Powered {
			t.Errorf("%s: powered %t, cautions %q", test.Name, test.Powered, said)
		}
		if want := map[string]string{"throttle": "propellers off", "radio": "propellers off", "hover": "local rules"}[test.Name]; !strings.Contains(said, want) {
			t.Errorf("%s: got %q, want %q in it", test.Name, said, want)
		}
	}
}

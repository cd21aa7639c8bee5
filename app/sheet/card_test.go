package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"mastwright/app/sheet"
	"mastwright/app/sheet/pdf"
	"mastwright/design"
)

// The card is one page; nothing leaves it.
func TestCardIsOnePage(t *testing.T) {
	for _, size := range []pdf.Size{pdf.A4, pdf.Letter} {
		all := pages(t, written(t, sheet.Card(sheet.CardOptions{Version: "v1.2.3"}), pdf.Options{Size: size}))
		if len(all) != 1 {
			t.Fatalf("%d pages, want 1", len(all))
		}
		words := all[0].text()
		for _, want := range []string{"Compass in the receiver", "half the body's size", "three points", "near edges", "must be 50 mm", "receiver", "leads[]"} {
			if !strings.Contains(words, want) {
				t.Errorf("the card does not say %q", want)
			}
		}
		for _, w := range all[0].Words {
			if w.XMin < 43 || w.XMax > all[0].Width-43 {
				t.Errorf("%q leaves the margins", w.Text)
			}
		}
	}
}

// Every blank is a field of the document, and the answers without which most checks have no data are all there.
func TestCardAsksWhatIsMissing(t *testing.T) {
	asked := map[string]bool{}
	for _, path := range sheet.CardPaths() {
		if _, ok := design.FieldOf(path); !ok {
			t.Errorf("%s is no field of the document", path)
		}
		asked[path] = true
	}
	for _, want := range []string{
		"airframe.mass", "airframe.motor_diagonal", "airframe.places[].holes.diameter", "airframe.places[].holes.along", "receiver.size.x", "receiver.mass", "receiver.compass.x",
		"leads[].spacing", "leads[].currents.full", "motors.kv", "motors.cells", "motors.propeller", "cable.length", "site.latitude", "site.longitude",
	} {
		if !asked[want] {
			t.Errorf("the card does not ask for %s", want)
		}
	}
}

func ExampleCard() {
	card := sheet.Card(sheet.CardOptions{Date: "2026-07-14"})
	fmt.Println(card.Kind, card.Date, len(card.Sections))
	// Output: Measuring card 2026-07-14 1
}

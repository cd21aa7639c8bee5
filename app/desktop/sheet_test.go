package desktop

import (
	"bytes"
	"os"
	"testing"
)

// The build sheet can be looked at before anything is written.
func TestSheetIsDrawnBeforeAnythingIsWritten(t *testing.T) {
	h := opened(t)
	name, err := h.drawSheet()
	if err != nil {
		t.Fatal(err)
	}
	defer os.Remove(name)
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(data, []byte("%PDF-")) || !bytes.Contains(data, []byte("%%EOF")) {
		t.Errorf("%d bytes are no PDF", len(data))
	}
	if h.shown.Written != nil {
		t.Error("something was written into the builder's folder")
	}
}

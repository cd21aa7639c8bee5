package build

import (
	"encoding/json"
	"io"
)

// EncodeJSON writes a value as indented JSON.
func EncodeJSON(w io.Writer, value any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(value)
}

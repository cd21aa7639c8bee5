package assets

import _ "embed"

//go:embed icon-256.png
var icon []byte

// Icon returns the program's icon, a PNG of 256 by 256.
func Icon() []byte { return icon }

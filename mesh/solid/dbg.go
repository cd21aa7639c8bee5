package solid

import (
	"fmt"
	"os"
)

func (m *maker) debug(a ...any) {
	if os.Getenv("SOLIDDBG") != "" {
		fmt.Fprintln(os.Stderr, a...)
	}
}

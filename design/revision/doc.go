// Package revision compares two designs, and carries a mount from one aircraft to another.
package revision

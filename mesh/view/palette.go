package view

import "image/color"

// Palette is the set of colours of a picture. All are opaque.
type Palette struct {
	Top, Bottom        color.NRGBA // of the background
	Grid               color.NRGBA // of the ground
	Ink                color.NRGBA // of feature edges
	Print, Frame, Body color.NRGBA // of raw print, the airframe and what is mounted on it
}

// Light returns the colours for light windows and for paper.
func Light() Palette {
	return Palette{
		Top: rgb(0xDDE1DD), Bottom: rgb(0xC9D0CB), Grid: rgb(0xAFB8B1), Ink: rgb(0x14191A),
		Print: rgb(0xEFE7D4), Frame: rgb(0x3A4244), Body: rgb(0x50595B),
	}
}

// Dark returns the colours for dark windows.
func Dark() Palette {
	return Palette{
		Top: rgb(0x1A2021), Bottom: rgb(0x0D1011), Grid: rgb(0x313A3B), Ink: rgb(0x07090A),
		Print: rgb(0xD8CFBA), Frame: rgb(0x363E40), Body: rgb(0x4A5456),
	}
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xFF}
}

package main

import (
	"io"

	"lintel/app/words"
)

func drawGallery(w words.Words, dir string, stdout io.Writer) error { return nil }

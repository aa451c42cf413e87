package main

import (
	"context"
	"io"
	"os"

	photos "lintel/app/picture"
	"lintel/app/station"
	"lintel/mesh"
)

// picture keeps a file as the picture of an item.
func (w *worker) picture(ctx context.Context, item mesh.Number, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close() // it is only read
	file, err := io.ReadAll(io.LimitReader(f, photos.FileLenMax+1))
	if err != nil {
		return err
	}
	b, err := photos.OfItem(file)
	if err != nil {
		return err
	}
	h, err := w.dev.KeepPicture(ctx, b)
	if err != nil {
		return err
	}
	st, err := w.dev.Station()
	if err != nil {
		return err
	}
	_, err = st.Do(ctx, w.by(), station.SetPicture{Item: item, Hash: h})
	return err
}

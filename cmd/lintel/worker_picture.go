package main

import (
	"context"
	"io"
	"os"

	photos "lintel/app/picture"
	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// picture keeps a file as the picture of an item.
func (w *worker) picture(ctx context.Context, item mesh.Number, path string) error {
	return w.keep(ctx, path, photos.OfItem, func(h mesh.Hash) station.Act { return station.SetPicture{Item: item, Hash: h} })
}

// shelfMap keeps a file as the map of a place.
func (w *worker) shelfMap(ctx context.Context, at kits.Place, path string) error {
	return w.keep(ctx, path, photos.OfPlace, func(h mesh.Hash) station.Act { return station.SetMap{Place: at, Hash: h} })
}

// keep keeps what is made of a file, and then records what names it.
func (w *worker) keep(ctx context.Context, path string, of func([]byte) ([]byte, error), names func(mesh.Hash) station.Act) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close() // it is only read
	file, err := io.ReadAll(io.LimitReader(f, photos.FileLenMax+1))
	if err != nil {
		return err
	}
	b, err := of(file)
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
	_, err = st.Do(ctx, w.by(), names(h))
	return err
}

package charge

import (
	"lintel/kits"
	"lintel/mesh"
)

// PictureOf is the item that a picture which is dropped on the window would be
// of: the one whose page is open. False: no item's is.
func (s *Screen) PictureOf() (mesh.Number, bool) {
	switch at := s.hand.at; {
	case at.Page == PageItem, at.Page == PageForm && at.Form == FormItem:
		return at.Item, at.Item != 0
	}
	return 0, false
}

// MapOf is the place that a shelf map which is dropped on the window would be of:
// the one whose line is open. False: none is.
func (s *Screen) MapOf() (kits.Place, bool) {
	at := s.hand.at
	return at.Place, at.Page == PageForm && at.Form == FormPlace && at.Place.Sort != 0
}

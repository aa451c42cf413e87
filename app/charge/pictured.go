package charge

import "lintel/app/look/picture"

// pictured is what the open page shows beside its words: what an item looks like,
// or the shelves of a place. A question shows nothing.
func (s *Screen) pictured() picture.Face {
	if s.snap.For != s.hand.at || s.hand.step != stepNone {
		return picture.Face{}
	}
	switch at := s.hand.at; {
	case at.Page == PageItem:
		return picture.Face{Hash: s.snap.Item.Picture}
	case at.Page == PageForm && at.Form == FormPlace:
		return picture.Face{Hash: s.snap.Form.Place.Map}
	}
	return picture.Face{}
}

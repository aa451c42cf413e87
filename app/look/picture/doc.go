// Package picture draws what an item looks like, and where it is kept.
//
//	p := picture.New(l, src)                                  // once, with the other parts of a screen
//	p.Set(picture.Face{Hash: item.Picture})                   // a photo or an outline, fitted to its box
//	p.Set(picture.Face{Hash: place.Map, Drawer: "drawer 2"})  // a map with that drawer marked
//	if p.Held() { box.Put(put, p) }                           // room for it only when there is something
//
//	p, held := picture.Of(l, src, item.Picture)               // the same in one step
//	p, held := picture.Map(l, src, place.Map, "drawer 2")
//
// A Source has the bytes that this device holds (app/device is one); those that
// are missing are fetched by somebody else, so set the face again with each
// snapshot: what is held by then is drawn. Zeros as hash are no picture.
//
// # How large
//
// An outline is recognised from SideLeast on, a photo from about 25 mm; a map
// takes 40 mm by 30 mm to show positions, for a runner 150 mm by 110 mm for the
// words of six drawers, at a desk half of that. Words that do not fit whole in the letters of Look.Reads are left
// out: the screen says the drawer beside it in any case. A picture never stands
// alone: number, name and detail stand beside it.
//
// A picture takes no tap. To make it one, put it over a look.Press.
package picture

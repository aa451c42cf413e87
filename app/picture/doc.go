// Package picture says which bytes are a picture: of an item, or of where it is
// kept. Whoever fetches a thing knows it by its look and finds it by its drawer.
// Entries carry only a hash (kits.ItemLine.Picture, kits.PlaceLine.Map); the
// bytes lie beside the log, and the hash says that they are the right ones.
//
// There are three kinds, told apart by how they begin:
//
//	photo     a JPEG of at most SideMax pixels on a side, as Photo makes it: no segment
//	          but those that hold the picture, so neither a place nor a time, a name or a
//	          smaller copy of what was cut off
//	outline   strokes of one weight in a field of FieldSide, see below
//	map       a shelf or a trolley from the front, as boxes, see below
//
// None is longer than LenMax. Check says whether bytes are one of them, and is
// asked before bytes are kept and before they are drawn.
//
// # Outlines
//
// An outline is an SVG of exactly this form, of at most OutlineLenMax bytes:
//
//	<svg xmlns="http://www.w3.org/2000/svg" width="48" height="48" viewBox="0 0 48 48">
//	<g fill="none" stroke="#000000" stroke-width="2" stroke-linecap="round" stroke-linejoin="round">
//	<path d="…"/> <rect x="" y="" width="" height="" rx="" ry=""/> <circle cx="" cy="" r=""/> <ellipse …/>
//	</g></svg>
//
// with at most ShapesMax shapes, numbers from 0 to 48 for what stands absolutely,
// no text, no style, no reference to anything else. Whoever draws it gives it
// the colour and decides nothing else.
//
// # Maps
//
// A map is CSV (RFC 4180), at most MapLenMax bytes, boxes within 0 to MapSide,
// upper left corner first:
//
//	shelf map,Corridor,Airway trolley
//	words,left,top,width,height
//	top,0,0,1000,140
//	drawer 1,0,160,1000,140
//
// The first row names room and cupboard. The words of a box are those that the
// catalogue has for where an item is kept (kits.ItemLine.KeptWords); each stands
// there once. Map.Find takes "in the room, rescue trolley, left" for "left" too.
package picture

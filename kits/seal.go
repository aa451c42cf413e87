package kits

import "lintel/mesh"

// sealMark is a seal as it was put on or as it was read when opened.
type sealMark struct {
	ref  mesh.Ref
	seal mesh.Label
}

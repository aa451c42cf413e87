package station

import (
	"strings"

	"lintel/mesh"
)

// TagLetter is what the tags of a role begin with where one is offered: one
// capital letter. Roles of a unit's own begin with the first letter of their
// id, and P stands for a person without a role. Any other tag can be typed.
func TagLetter(role mesh.ID) string {
	switch role {
	case "assistant":
		return "D" // drugs: A is not heard apart from other letters, and rooms begin with it
	case "":
		return "P"
	}
	return strings.ToUpper(string(role[:1]))
}

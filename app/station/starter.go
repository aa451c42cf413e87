package station

import (
	"fmt"

	"lintel/assets"
	"lintel/kits"
	"lintel/requests"
)

// Starter is what every device knows before a unit edits it.
type Starter struct {
	Roles requests.Defaults
	Kits  kits.Defaults
	Board BoardLayout // of the board inside
}

// ReadStarter reads the embedded starter lists. Rooms, par levels and stock are
// not among them: those are a unit's own.
func ReadStarter() (s Starter, err error) {
	if s.Roles.Roles, err = requests.ReadRoles(assets.Roles()); err != nil {
		return s, fmt.Errorf("roles: %w", err)
	}
	if s.Board, err = ReadLayout(assets.Layout()); err != nil {
		return s, fmt.Errorf("layout: %w", err)
	}
	s.Kits, err = kits.ReadDefaults(kits.Files{
		Catalogue: assets.Catalogue(), Bundles: assets.Bundles(), Places: assets.Places(), Waste: assets.Waste(),
	})
	return s, err
}

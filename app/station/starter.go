package station

import (
	"fmt"

	"lintel/assets"
	"lintel/kits"
	"lintel/requests"
)

// Starter is what every device knows before a unit edits it.
type Starter struct {
	Roles requests.Defaults // with the lists, labels of drugs among them, and the settings
	Kits  kits.Defaults
	Board BoardLayout // of the board inside
}

// ReadStarter reads the embedded starter lists. Rooms, par levels and stock are
// not among them: those are a unit's own.
func ReadStarter() (s Starter, err error) {
	if s.Roles.Roles, err = requests.ReadRoles(assets.Roles()); err != nil {
		return s, fmt.Errorf("roles: %w", err)
	}
	if s.Roles.Lists, err = starterLists(); err != nil {
		return s, err
	}
	if s.Roles.Settings, err = requests.ReadSettings(assets.Settings()); err != nil {
		return s, fmt.Errorf("settings: %w", err)
	}
	if s.Board, err = ReadLayout(assets.Layout()); err != nil {
		return s, fmt.Errorf("layout: %w", err)
	}
	s.Kits, err = kits.ReadDefaults(kits.Files{
		Catalogue: assets.Catalogue(), Bundles: assets.Bundles(), Templates: assets.Templates(), Places: assets.Places(), Waste: assets.Waste(),
	})
	if err != nil {
		return s, err
	}
	if err := illustrate(&s.Kits, assets.Pictures()); err != nil {
		return s, fmt.Errorf("pictures: %w", err)
	}
	return s, nil
}

// starterLists are the lists that are data, with those that say how a drug's
// label looks: a unit edits all of them in the same way.
func starterLists() ([]requests.ListLine, error) {
	lists, err := requests.ReadLists(assets.Lists())
	if err != nil {
		return nil, fmt.Errorf("lists: %w", err)
	}
	labels, err := ReadLabels(assets.Labels())
	if err != nil {
		return nil, fmt.Errorf("labels: %w", err)
	}
	spellings, err := ReadSpellings(assets.TallMan())
	if err != nil {
		return nil, fmt.Errorf("tall-man letters: %w", err)
	}
	return append(append(lists, labels...), spellings...), nil
}

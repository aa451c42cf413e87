package station

import (
	"slices"

	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// DemoTemplate is the template of a kit that the invented unit has: its first tray.
const DemoTemplate mesh.ID = "first-tray"

// DemoStock is the acts that fill the invented unit with rooms, a template of a
// kit, par levels and opening stock, and how many lines they write. Everything
// in it is invented.
func DemoStock() (acts []Act, lines int, err error) {
	rooms, err := requests.ReadRooms(assets.Rooms())
	if err != nil {
		return nil, 0, err
	}
	stock, err := kits.ReadStock(assets.DemoStock())
	if err != nil {
		return nil, 0, err
	}
	for some := range slices.Chunk(rooms, LinesMax) {
		acts = append(acts, Lines{Rooms: some})
	}
	bundles, err := kits.ReadBundles(assets.Bundles())
	if err != nil {
		return nil, 0, err
	}
	tray := kits.Template{ID: DemoTemplate, Name: bundles[0].Name, Lines: bundles[0].Lines, Source: "invented for the demonstration"}
	acts = append(acts, Catalogue{Templates: []kits.Template{tray}})
	var pars []kits.ParLine
	for _, x := range stock {
		pars = append(pars, kits.ParLine{Place: x.Place, Item: x.Item, Par: x.Par})
	}
	for some := range slices.Chunk(pars, LinesMax) {
		acts = append(acts, Lines{Pars: some})
	}
	for _, m := range kits.Opening(stock) {
		acts = append(acts, Move{Movements: []kits.Moved{m}})
	}
	return acts, len(rooms) + len(stock) + 1, nil
}

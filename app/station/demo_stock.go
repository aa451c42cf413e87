package station

import (
	"slices"

	"lintel/assets"
	"lintel/kits"
	"lintel/requests"
)

// DemoStock is the acts that fill the invented unit with rooms, par levels and
// opening stock, and how many lines they write. Everything in it is invented.
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
	return acts, len(rooms) + len(stock), nil
}

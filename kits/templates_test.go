package kits

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: templates of kits are read as written, and every fault is named with its
// row and column. Method: one good list; lists with one fault each.
func TestTemplatesAreReadWithTheirFaultsNamed(t *testing.T) {
	const head = "id,name,item,count,where,source\n"
	got, err := ReadTemplates([]byte(head + "first,First tray,1007,2,inside,ours\nfirst,First tray,1010,1,door,ours\nb,Set B,1029,1,outside,ours\n"))
	require.NoError(t, err)
	require.Equal(t, []Template{
		{ID: "first", Name: "First tray", Source: "ours", Lines: []TemplateLine{{1007, 2, WhereInside}, {1010, 1, WhereAtDoor}}},
		{ID: "b", Name: "Set B", Source: "ours", Lines: []TemplateLine{{1029, 1, WhereOutside}}},
	}, got)
	for text, says := range map[string]string{
		"first,First tray,1008,2,inside,ours\n":  "row 2, column item",
		"first,First tray,1007,0,inside,ours\n":  "row 2, column count",
		"first,First tray,1007,1,nowhere,ours\n": "row 2, column where",
		"first,,1007,1,inside,ours\n":            "row 2, column name",
		"first,First tray,1007,1,inside,ours\nb,B,1007,1,inside,ours\nfirst,First tray,1010,1,inside,ours\n": "row 4, column id",
		"first,First tray,1007,1,inside,ours\nfirst,Second tray,1010,1,inside,ours\n":                        "row 3, column name",
	} {
		_, err := ReadTemplates([]byte(head + text))
		require.ErrorIs(t, err, ErrList)
		require.ErrorContains(t, err, says)
	}
	_, err = ReadDefaults(Files{Templates: []byte(head + "first,First tray,1007,2,inside,ours\n")})
	require.ErrorContains(t, err, "its item 1007 is in no list")
}

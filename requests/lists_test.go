package requests

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: roles and rooms are data. Method: read a good table, then one mistake
// at a time; each is named with its row.
func TestListsNameTheRowThatIsWrong(t *testing.T) {
	const head = "id,name,side,abilities,source\n"
	roles, err := ReadRoles([]byte(head + "runner,Runner,outside,fetch ask,x\n"))
	require.NoError(t, err)
	require.Equal(t, []RoleLine{{ID: "runner", Name: "Runner", Side: Outside, Can: CanFetch | CanAsk, Place: 1}}, roles)
	for _, bad := range []string{
		"", "id,name\n", head + "r,R,above,fetch,x\n", head + "r,R,inside,fly,x\n", head + "r r,R,inside,ask,x\n", head + "r,R\n",
	} {
		_, err := ReadRoles([]byte(bad))
		require.ErrorIs(t, err, ErrList, bad)
	}

	const rooms = "id,name,zones,milli_air_changes,source\n"
	got, err := ReadRooms([]byte(rooms + "A1,A1,corridor:outside in:inside,12000,x\n"))
	require.NoError(t, err)
	require.Equal(t, Inside, got[0].Zones[1].Side)
	for _, bad := range []string{rooms + "A1,A1,corridor,1,x\n", rooms + "A1,A1,,many,x\n"} {
		_, err := ReadRooms([]byte(bad))
		require.ErrorIs(t, err, ErrList, bad)
	}
}

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

// Goal: lists and settings are data. Method: read a good table, then one
// mistake at a time; each is named with its row.
func TestLinesAndSettingsNameTheRowThatIsWrong(t *testing.T) {
	const head = "list,id,words,place,marks,source\n"
	lines, err := ReadLists([]byte(head + "time,tube,Tube in,3,9,x\nbrief,tube,Tube,1,0,x\n"))
	require.NoError(t, err)
	require.Len(t, lines, 2)
	require.Equal(t, ListLine{List: "time", ID: "tube", Words: "Tube in", Place: 3, Marks: 9, Source: "x"}, lines[0])
	for _, bad := range []string{
		"", head + ",a,A,1,0,x\n", head + "l,,A,1,0,x\n", head + "l,a,A,one,0,x\n", head + "l,a,A,1,-1,x\n",
		head + "l,a,A,1,0,x\nl,a,B,2,0,x\n", head + "l l,a,A,1,0,x\n", head + "l,a,\"A\tB\",1,0,x\n",
	} {
		_, err := ReadLists([]byte(bad))
		require.ErrorIs(t, err, ErrList, bad)
	}

	const settings = "name,value,unit,source\n"
	got, err := ReadSettings([]byte(settings + "call-again,30,s,x\n"))
	require.NoError(t, err)
	require.Equal(t, []Setting{{Name: "call-again", Value: "30"}}, got)
	for _, bad := range []string{"name,value\n", settings + ",30,s,x\n", settings + "a b,1,s,x\n", settings + "a,1,s,x\na,2,s,x\n"} {
		_, err := ReadSettings([]byte(bad))
		require.ErrorIs(t, err, ErrList, bad)
	}
}

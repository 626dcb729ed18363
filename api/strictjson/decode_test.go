package strictjson_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/strictjson"
)

type word string

type either struct{ union json.RawMessage }

func (e *either) UnmarshalJSON(b []byte) error { return e.union.UnmarshalJSON(b) }

// form has a field of every type that a wire form has.
type form struct {
	Text   string            `json:"text"`
	Word   *word             `json:"word,omitempty"`
	Whole  int               `json:"whole"`
	Maybe  *int              `json:"maybe,omitempty"`
	Number float64           `json:"number"`
	Yes    *bool             `json:"yes,omitempty"`
	List   []form            `json:"list"`
	Points *[][]float64      `json:"points,omitempty"`
	Names  map[string]string `json:"names,omitempty"`
	Inner  *form             `json:"inner,omitempty"`
	Either *either           `json:"either,omitempty"`
	Any    any               `json:"any,omitempty"`
	hidden int
}

var forms = []string{
	`{}`,
	`{"text":"a\u00e9\n\ud83d\ude00","word":"b","whole":-3,"maybe":0,"number":1.25,"yes":true}`,
	`{"list":[{},{"text":"x"}],"points":[[1,2.5],[]],"names":{"a":"b","":"c"},"inner":{"inner":{"yes":false}}}`,
	`{"either":{"top":"1 cm","a":[1,null]},"names":{}}`, `{"either":"1 cm"}`, `{"either":null}`,
	`{"any":{"a":[1,"b",null]}}`, `{"another":1}`, `{"TEXT":"x"}`, `{"text":null,"list":null,"maybe":null}`,
	`{"text":1}`, `{"whole":1.0}`, `{"whole":1e3}`, `{"whole":99999999999999999999}`, `{"number":1e400}`, `{"number":-0}`, `{"number":1e-400}`,
	`{"list":{}}`, `{"names":[]}`, `{"inner":[]}`, `{"hidden":3}`, `null`, `[]`, `"x"`, `3`,
}

// What Decode puts into a form is what encoding/json does.
func same(t *testing.T, doc []byte) {
	t.Helper()
	v, err := strictjson.Parse(doc, strictjson.Limits{Depth: 32, Values: 1000})
	if err != nil {
		return
	}
	var got, want form
	gotErr, wantErr := v.Decode(&got), json.Unmarshal(v.Canonical(), &want)
	if (gotErr == nil) != (wantErr == nil) || !reflect.DeepEqual(got, want) {
		t.Errorf("%.300s: %+v, %v; encoding/json has %+v, %v", doc, got, gotErr, want, wantErr)
	}
}

func TestDecodeIsEncodingJSON(t *testing.T) {
	for _, doc := range forms {
		same(t, []byte(doc))
	}
	for _, doc := range forms[1:4] { // one in another, and one beside another
		same(t, []byte(`{"inner":`+doc+`,"list":[`+doc+`,`+strings.Repeat(doc+",", 5)+doc+`]}`))
	}
	v, err := strictjson.Parse([]byte(`{}`), strictjson.Limits{Depth: 2, Values: 2})
	if err != nil {
		t.Fatal(err)
	}
	if v.Decode(form{}) == nil || v.Decode((*form)(nil)) == nil || v.Decode(nil) == nil {
		t.Error("decoded into nothing")
	}
	_ = form{}.hidden
}

func FuzzDecode(f *testing.F) {
	for _, doc := range forms {
		f.Add([]byte(doc))
	}
	f.Fuzz(same)
}

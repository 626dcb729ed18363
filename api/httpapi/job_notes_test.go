package httpapi_test

import (
	"encoding/json"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/furniture"
)

// jobNote is a note as it is read off the wire.
type jobNote struct {
	Code, Severity, Text string
	Params               map[string]any
	From                 []string
}

func (n jobNote) same(o jobNote) bool {
	return n.Code == o.Code && reflect.DeepEqual(n.Params, o.Params)
}

// saidBy are the warnings and cautions anywhere within a part.
func saidBy(t testing.TB, part any) []jobNote {
	t.Helper()
	var out []jobNote
	switch v := part.(type) {
	case []any:
		for _, one := range v {
			out = append(out, saidBy(t, one)...)
		}
	case map[string]any:
		for name, one := range v {
			if name != "warnings" && name != "cautions" {
				out = append(out, saidBy(t, one)...)
				continue
			}
			var list []jobNote
			recode(t, one, &list)
			out = append(out, list...)
		}
	}
	return out
}

func recode(t testing.TB, from, to any) {
	t.Helper()
	b, err := json.Marshal(from)
	if err == nil {
		err = json.Unmarshal(b, to)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// partsOf are the parts of a job's answer by what its notes call them.
func partsOf(a map[string]any) map[string][]any {
	out := make(map[string][]any)
	add := func(section, by string, name func(string) string) {
		list, several := a[section].([]any)
		if one, is := a[section].(map[string]any); is && !several {
			list = []any{one}
		}
		for _, p := range list {
			called := ""
			switch by := p.(map[string]any)[by].(type) {
			case string:
				called = by
			case []any:
				var all []string
				for _, id := range by {
					all = append(all, id.(string))
				}
				called = strings.Join(all, ", ")
				if n := len(all); n > 1 {
					called = strings.Join(all[:n-1], ", ") + " and " + all[n-1]
				}
			}
			out[name(called)] = append(out[name(called)], p)
		}
	}
	add("cuttingLists", "piece", func(s string) string { return "cutting list " + s })
	add("cloths", "cloth", func(s string) string { return "cloth " + s })
	add("piping", "cloth", func(s string) string { return "piping " + s })
	add("buttoning", "panel", func(s string) string { return "buttoning " + s })
	add("foundation", "build", func(s string) string { return s + " foundation" })
	add("fire", "pieces", func(s string) string { return "fire check of " + s })
	for _, one := range []string{"foam", "wadding", "cost"} {
		add(one, "", func(string) string { return one })
	}
	return out
}

// notesHold holds an answer of /v1/job against what its parts say: whatever a part
// that is shown says, the job says, and names the part; and what the job says reads
// well and comes from parts that there are.
func notesHold(t testing.TB, answer []byte) {
	t.Helper()
	var a map[string]any
	if err := json.Unmarshal(answer, &a); err != nil {
		t.Fatal(err)
	}
	var job []jobNote
	for _, list := range []string{"warnings", "cautions"} {
		var one []jobNote
		recode(t, a[list], &one)
		for i := range one {
			if slices.ContainsFunc(one[:i], one[i].same) {
				t.Errorf("the job says twice: %s %v", one[i].Code, one[i].Params)
			}
		}
		job = append(job, one...)
	}
	parts := partsOf(a)
	for name, all := range parts {
		for _, said := range saidBy(t, all) {
			k := slices.IndexFunc(job, said.same)
			if k < 0 {
				t.Errorf("%s says %q, and the job does not (%s %v)", name, said.Text, said.Code, said.Params)
			} else if !slices.Contains(job[k].From, name) {
				t.Errorf("%s says %q, and the job has it from %q", name, said.Text, job[k].From)
			}
		}
	}
	hidden := regexp.MustCompile(`^(job$|foam$|wadding$|cost$|(cutting list|cloth|piping|buttoning|fire check of) |(traditional|modern) foundation$)`)
	for _, n := range job {
		if strings.ContainsAny(n.Text, "{}") || n.Text == "" || len(n.From) == 0 {
			t.Errorf("%s reads %q, from %q", n.Code, n.Text, n.From)
		}
		for _, from := range n.From {
			if !hidden.MatchString(from) {
				t.Errorf("%q comes from %q", n.Text, from)
			}
		}
	}
}

func TestJobSaysWhatItsPartsSay(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	bodies := []string{jobStool}
	for _, name := range demoSheets {
		bodies = append(bodies, jobFile(t, name))
	}
	for _, body := range bodies {
		notesHold(t, c.postJob(body).Body.Bytes())
	}
}

// Whatever the job is: any kinds and builds, in plain and patterned cloths, with
// pieces in hand, bolts, buttons, foam, a fire check and prices, or without.
func TestAnyJobSaysWhatItsPartsSay(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	asked, answered := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		body, err := json.Marshal(anyJob(rt))
		if err != nil {
			rt.Fatal(err)
		}
		asked++
		w := c.postJob(string(body))
		switch w.Code {
		case 200:
			answered++
			notesHold(t, w.Body.Bytes())
		case 422: // a piece that does not come off its cloth
		default:
			rt.Fatalf("status %d to %s: %s", w.Code, body, w.Body)
		}
		if t.Failed() {
			rt.Fatalf("the job is %s", body)
		}
	})
	if answered < asked/2 {
		t.Errorf("only %d of %d jobs were answered", answered, asked)
	}
}

type object = map[string]any

// anyJob draws a request for a job.
func anyJob(t *rapid.T) object {
	job := object{"effort": "quick", "pieces": []any{}, "cloths": []any{}}
	perhaps := func(name string, in object, field string, v any) {
		if rapid.Bool().Draw(t, name) {
			in[field] = v
		}
	}
	ids := []string{"A", "B"}[:rapid.IntRange(1, 2).Draw(t, "cloths")]
	for _, id := range ids {
		cloth := object{"width": rapid.SampledFrom([]string{"100 cm", "137 cm", "150 cm"}).Draw(t, "width")}
		if rapid.Bool().Draw(t, "patterned") {
			cloth["pattern"] = object{
				"lengthRepeat": rapid.SampledFrom([]string{"8 cm", "32 cm", "64 cm"}).Draw(t, "repeat"), "widthRepeat": "34 cm",
				"motifs": []any{object{"name": "heron", "across": "17 cm"}},
			}
		}
		perhaps("nap", cloth, "oneWay", true)
		perhaps("bolt", cloth, "boltLength", rapid.SampledFrom([]string{"3 m", "30 m"}).Draw(t, "bolt of"))
		perhaps("flaws", cloth, "flawAllowance", "5 %")
		perhaps("shrinkage", cloth, "shrinkage", "2 %")
		one := object{"id": id, "cloth": cloth}
		if rapid.IntRange(0, 4).Draw(t, "in hand") == 0 {
			one["pieces"] = []any{"60 cm", "2 m"}
		}
		job["cloths"] = append(job["cloths"].([]any), one)
	}
	for _, id := range []string{"P", "Q", "R"}[:rapid.IntRange(1, 3).Draw(t, "pieces")] {
		kind := rapid.SampledFrom(furniture.Kinds()).Draw(t, "kind")
		piece := object{
			"id": id, "kind": kind.ID, "build": rapid.SampledFrom([]string{"traditional", "modern", "keep"}).Draw(t, "build"),
			"cloths": object{"top": rapid.SampledFrom(ids).Draw(t, "top"), "piping": rapid.SampledFrom(ids).Draw(t, "piping")},
		}
		options := object{}
		for _, o := range kind.Options {
			if rapid.Bool().Draw(t, o.ID) {
				options[o.ID] = rapid.SampledFrom(o.Choices).Draw(t, "choice").ID
			}
		}
		piece["options"] = options
		perhaps("several", piece, "count", 2)
		job["pieces"] = append(job["pieces"].([]any), piece)
	}
	perhaps("fixing", job, "foundation", object{"fixing": "staples"})
	perhaps("fire", job, "fire", object{
		"asOf": "2026-11-25", "place": rapid.SampledFrom([]string{"california", "great-britain", "united-states", "maine"}).Draw(t, "place"),
		"use": "home", "platform": "building", "transaction": "reupholstered-for-owner", "made": "1990",
	})
	perhaps("terms", job, "terms", object{"currency": "GBP", "labour": object{"rate": "38.00"}})
	perhaps("prices", job, "prices", []any{object{"article": "cloth/A", "amount": "42.00", "per": "kg"}, object{"article": "tacks", "amount": "3.00", "per": "pack"}})
	perhaps("hide", job, "sections", object{rapid.SampledFrom([]string{"foam", "fire", "cloths", "cuttingLists"}).Draw(t, "hidden"): false})
	return job
}

package keyring_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/keyring"
)

// Two keys of a client work at the same time, so that it can change to the new
// one; the one that is taken out of the list does not.
func TestRotation(t *testing.T) {
	oldKey, oldHash := keyring.New()
	newKey, newHash := keyring.New()
	gone, _ := keyring.New()
	r, err := keyring.Read(strings.NewReader("# Harbour Lane Workroom\n\nharbour-lane " + oldHash + " rate=600 work=60000\n" +
		"  harbour-lane\t" + newHash + " work=60000 rate=600\nsedge " + keyHash() + "\n"))
	if err != nil || r.Len() != 3 {
		t.Fatalf("%v", err)
	}
	want := keyring.Client{Name: "harbour-lane", Requests: 600, Work: 60000}
	for _, key := range []string{oldKey, newKey} {
		if c, ok := r.Find(key); !ok || c != want {
			t.Errorf("%+v, %v", c, ok)
		}
	}
	for _, key := range []string{"", gone, oldKey + "x", oldKey[:len(oldKey)-1], strings.ToUpper(oldKey), oldHash, strings.TrimPrefix(oldHash, "sha256:"), "harbour-lane"} {
		if c, ok := r.Find(key); ok {
			t.Errorf("%.12q is %+v", key, c)
		}
	}
	if _, ok := (&keyring.Ring{}).Find(""); ok {
		t.Error("an empty ring has the empty key")
	}
}

func keyHash() string {
	_, hash := keyring.New()
	return hash
}

// A list that is wrong is refused, with its line and without what is in it.
func TestReadRefuses(t *testing.T) {
	key, hash := keyring.New()
	many := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "c%d %s\n", i, keyHash())
		}
		return b.String()
	}
	for name, list := range map[string]string{
		"no hash":            "harbour-lane",
		"the key itself":     "harbour-lane " + key,
		"short hash":         "harbour-lane " + hash[:70],
		"no algorithm":       "harbour-lane " + strings.TrimPrefix(hash, "sha256:"),
		"bad name":           "harbour/lane " + hash,
		"long name":          strings.Repeat("x", 33) + " " + hash,
		"bad quota":          "a " + hash + " rate=many",
		"quota below 0":      "a " + hash + " rate=-1",
		"unknown quota":      "a " + hash + " speed=1",
		"quota twice":        "a " + hash + " rate=1 rate=1",
		"key twice":          "a " + hash + "\nb " + hash,
		"three keys":         "a " + hash + "\na " + keyHash() + "\na " + keyHash(),
		"quotas that differ": "a " + hash + " rate=1\na " + keyHash() + " rate=2",
		"long line":          "a " + hash + strings.Repeat(" ", 500),
		"too many":           many(keyring.MaxEntries + 1),
	} {
		_, err := keyring.Read(strings.NewReader(list))
		if err == nil {
			t.Errorf("%s: taken", name)
			continue
		}
		if s := err.Error(); strings.Contains(s, key[10:20]) || strings.Contains(s, hash[7:17]) {
			t.Errorf("%s: the error shows what is in the list: %s", name, s)
		}
	}
	if r, err := keyring.Read(strings.NewReader(many(keyring.MaxEntries))); err != nil || r.Len() != keyring.MaxEntries {
		t.Errorf("as many as there may be: %v", err)
	}
}

func TestNewKeysDiffer(t *testing.T) {
	seen := make(map[string]bool)
	for range 1000 {
		key, hash := keyring.New()
		if len(key) != 53 || seen[key] || seen[hash] {
			t.Fatalf("a key of %d bytes, or one that was there before", len(key))
		}
		seen[key], seen[hash] = true, true
	}
}

func FuzzRead(f *testing.F) {
	f.Add("a sha256:" + strings.Repeat("0", 64) + " rate=1\n# b\n")
	f.Fuzz(func(t *testing.T, list string) {
		if r, err := keyring.Read(strings.NewReader(list)); err == nil && r.Len() > keyring.MaxEntries {
			t.Errorf("%d keys", r.Len())
		}
	})
}

func BenchmarkFind(b *testing.B) {
	var list strings.Builder
	for i := range keyring.MaxEntries {
		fmt.Fprintf(&list, "c%d %s\n", i, keyHash())
	}
	r, err := keyring.Read(strings.NewReader(list.String()))
	if err != nil {
		b.Fatal(err)
	}
	key, _ := keyring.New()
	for b.Loop() {
		r.Find(key)
	}
}

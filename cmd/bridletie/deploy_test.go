package main

import (
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// What deploy sets is a setting, with a value that it takes.
func TestDeploySetsWhatThereIs(t *testing.T) {
	c := defaults()
	flags := flagsOf(&c)
	byVariable := map[string]string{}
	flags.VisitAll(func(f *flag.Flag) { byVariable[envOf(f.Name)] = f.Name })
	set := regexp.MustCompile(`\b(BRIDLETIE_[A-Z_]+)(?:=|: +)"?([^" \n]+)`)
	n := 0
	err := filepath.WalkDir(filepath.Join("..", "..", "deploy"), func(name string, d fs.DirEntry, err error) error {
		switch ext := filepath.Ext(name); {
		case err != nil:
			return err
		case d.IsDir() && d.Name() == "check":
			return fs.SkipDir
		case d.IsDir(), ext != ".yaml" && ext != ".service" && d.Name() != "Containerfile":
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		for _, m := range set.FindAllStringSubmatch(string(text), -1) {
			n++
			if f, ok := byVariable[m[1]]; !ok {
				t.Errorf("%s sets %s, which is no setting", name, m[1])
			} else if err := flags.Set(f, m[2]); err != nil {
				t.Errorf("%s: %s=%s: %v", name, m[1], m[2], err)
			}
		}
		return nil
	})
	if err != nil || n < 8 {
		t.Errorf("%d settings: %v", n, err)
	}
}

package contract

import "strings"

// Methods are those of a path of the contract, as Allow says them.
func (c *Contract) Methods(path string) []string { return c.methods[path] }

// Template is the path of the contract that a request's path is of; ok is
// false when there is none.
func (c *Contract) Template(path string) (string, bool) {
	if _, ok := c.methods[path]; ok && !strings.Contains(path, "{") {
		return path, true
	}
	for _, template := range c.parametrized {
		if fits(path, template) {
			return template, true
		}
	}
	return "", false
}

// fits reports whether a path is of a template: part by part the same, or
// anything but nothing where the template has a parameter.
func fits(path, template string) bool {
	parts, want := strings.Split(path, "/"), strings.Split(template, "/")
	if len(parts) != len(want) {
		return false
	}
	for i, part := range parts {
		if parameter := strings.HasPrefix(want[i], "{"); part == "" && parameter || part != want[i] && !parameter {
			return false
		}
	}
	return true
}

package contract

import "strings"

// Methods returns the methods of a path of the contract, for the Allow header.
func (c *Contract) Methods(path string) []string { return c.methods[path] }

// Template returns the contract's path that matches a request's path; ok is false when
// none does.
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

// fits reports whether a path matches a template. A parameter matches any one non-empty
// segment.
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

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"net/netip"
	"os"
	"strings"

	"github.com/bridletie/bridletie/api/keyring"
)

// newKey creates a key for a client and prints it with its line for the key list. Nothing
// is stored.
func newKey(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("key", flag.ContinueOnError)
	flags.SetOutput(stderr)
	rate := flags.Int("rate", -1, "requests a minute; -1 for the quota of clients without a key, 0 for no quota")
	work := flags.Int("work", -1, "milliseconds of work a minute; -1 for the quota of clients without a key, 0 for no quota")
	name, code := parseRun(flags, args, stderr)
	if code != exitOK || name == "" {
		return code
	}
	if !keyring.IsName(name) {
		fmt.Fprintln(stderr, "bridletie key: a name is 1 to 32 letters, digits, dots, dashes or underscores")
		return exitUsage
	}
	key, hash := keyring.New()
	line := name + " " + hash
	if *rate >= 0 {
		line += fmt.Sprintf(" rate=%d", *rate)
	}
	if *work >= 0 {
		line += fmt.Sprintf(" work=%d", *work)
	}
	fmt.Fprintf(stdout, "The key, for %s and nobody else; it cannot be shown again:\n  %s\nThe line for the list of keys:\n  %s\n", name, key, line)
	return exitOK
}

// keysVariable is the variable that may contain the list of keys itself.
const keysVariable = "BRIDLETIE_KEYS"

// readKeys reads the list of keys from its file, or from the variable; nil when there is
// neither.
func readKeys(file, list string) (*keyring.Ring, error) {
	switch {
	case file != "" && list != "":
		return nil, errors.New("keys stand in a file and in " + keysVariable + ": give one of them")
	case file != "":
		f, err := os.Open(file)
		if err != nil {
			return nil, err
		}
		defer func() { _ = f.Close() }()
		return keyring.Read(f)
	case list != "":
		return keyring.Read(strings.NewReader(list))
	}
	return nil, nil
}

// prefixes is a flag value: networks separated by commas. A single address is a network of
// its own.
type prefixes []netip.Prefix

// String returns the list in the form that Set reads.
func (p *prefixes) String() string {
	words := make([]string, len(*p))
	for i, one := range *p {
		words[i] = one.String()
	}
	return strings.Join(words, ",")
}

// Set parses the list.
func (p *prefixes) Set(s string) error {
	*p = nil
	for _, word := range strings.Split(s, ",") {
		word = strings.TrimSpace(word)
		one, err := netip.ParsePrefix(word)
		if a, e := netip.ParseAddr(word); e == nil {
			one, err = netip.PrefixFrom(a, a.BitLen()), nil
		}
		if err != nil {
			return errors.New("networks such as 10.0.0.0/8, with commas between")
		}
		*p = append(*p, one)
	}
	return nil
}

// Package keyring stores the keys of clients as hashes.
//
// A key is 32 random bytes, so that nobody can guess one from its hash, however fast the
// hash is. A slow hash such as bcrypt is meant for passwords, which people choose. Here it
// would only let a sender of wrong keys keep a core busy.
package keyring

import (
	"bufio"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// The limits on a list of keys.
const (
	MaxEntries = 1000
	MaxLive    = 2 // keys of one client: the old and the new one during a rotation
	maxName    = 32
	maxLine    = 400
	maxQuota   = 1_000_000_000
)

// Client is the owner of a key, with the quotas from the list; -1 for a quota not in the
// list.
type Client struct {
	Name           string
	Requests, Work int
}

type entry struct {
	hash   [sha256.Size]byte
	client *Client
}

// Ring is a list of keys. The zero value is empty.
type Ring struct {
	entries []entry
	clients map[string]*Client
}

// Len returns the number of keys.
func (r *Ring) Len() int { return len(r.entries) }

// Clients returns all owners of keys, in no particular order.
func (r *Ring) Clients() []Client {
	all := make([]Client, 0, len(r.clients))
	for _, c := range r.clients {
		all = append(all, *c)
	}
	return all
}

// Find returns the owner of a key. It compares all hashes in constant time, so that the
// duration reveals nothing.
func (r *Ring) Find(key string) (Client, bool) {
	hash := sha256.Sum256([]byte(key))
	var found *Client
	for i := range r.entries {
		if subtle.ConstantTimeCompare(hash[:], r.entries[i].hash[:]) == 1 {
			found = r.entries[i].client
		}
	}
	if found == nil {
		return Client{}, false
	}
	return *found, true
}

// Read reads a list: on each line a name, the hash of a key and perhaps quotas.
//
//	# the new key, and the old one until the end of the month
//	harbour-lane sha256:2c26…e7ae rate=600 work=60000
//	harbour-lane sha256:fcde…2b2d rate=600 work=60000
//
// Its errors name the line and never what is in it.
func Read(from io.Reader) (*Ring, error) {
	r := &Ring{clients: make(map[string]*Client)}
	live := make(map[string]int)
	seen := make(map[[sha256.Size]byte]bool)
	lines := bufio.NewScanner(from)
	lines.Buffer(make([]byte, 0, maxLine+2), maxLine+2)
	for n := 1; lines.Scan(); n++ {
		fields := strings.Fields(lines.Text())
		if len(fields) == 0 || strings.HasPrefix(fields[0], "#") {
			continue
		}
		fail := func(why string) error { return fmt.Errorf("keyring: line %d: %s", n, why) }
		c, hash, err := readLine(fields)
		switch known := r.clients[c.Name]; {
		case err != nil:
			return nil, fail(err.Error())
		case len(r.entries) == MaxEntries:
			return nil, fail("there are too many keys")
		case seen[hash]:
			return nil, fail("the key stands twice")
		case known == nil:
			r.clients[c.Name] = &c
		case *known != c:
			return nil, fail("the client has other quotas on an earlier line")
		}
		if live[c.Name]++; live[c.Name] > MaxLive {
			return nil, fail("the client has two keys already")
		}
		seen[hash] = true
		r.entries = append(r.entries, entry{hash, r.clients[c.Name]})
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("keyring: %w", err)
	}
	return r, nil
}

func readLine(fields []string) (c Client, hash [sha256.Size]byte, err error) {
	c = Client{Name: fields[0], Requests: -1, Work: -1}
	if !IsName(c.Name) {
		return c, hash, errors.New("a name is 1 to 32 letters, digits, dots, dashes or underscores")
	}
	if len(fields) < 2 {
		return c, hash, errors.New("the hash is missing")
	}
	digits, ok := strings.CutPrefix(fields[1], "sha256:")
	raw, err := hex.DecodeString(digits)
	if !ok || err != nil || len(raw) != sha256.Size {
		return c, hash, errors.New("a hash is sha256: and 64 hexadecimal digits")
	}
	copy(hash[:], raw)
	for _, f := range fields[2:] {
		name, number, _ := strings.Cut(f, "=")
		quota, err := strconv.Atoi(number)
		if err != nil || quota < 0 || quota > maxQuota {
			return c, hash, errors.New("a quota is rate= or work= and a number")
		}
		switch {
		case name == "rate" && c.Requests < 0:
			c.Requests = quota
		case name == "work" && c.Work < 0:
			c.Work = quota
		default:
			return c, hash, errors.New("a quota is rate= or work=, each once")
		}
	}
	return c, hash, nil
}

// IsName reports whether s is valid as the name of a client.
func IsName(s string) bool {
	for _, c := range []byte(s) {
		if (c < 'a' || c > 'z') && (c < 'A' || c > 'Z') && (c < '0' || c > '9') && c != '.' && c != '-' && c != '_' {
			return false
		}
	}
	return s != "" && len(s) <= maxName
}

// New creates a key, and returns it with its hash for the list. The prefix identifies it
// to people and to secret scanners.
func New() (key, hash string) {
	var raw [32]byte
	_, _ = rand.Read(raw[:]) // never fails
	key = "bridletie_" + base64.RawURLEncoding.EncodeToString(raw[:])
	sum := sha256.Sum256([]byte(key))
	return key, "sha256:" + hex.EncodeToString(sum[:])
}

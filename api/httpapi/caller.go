package httpapi

import (
	"fmt"
	"net/netip"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/keyring"
)

// Access sets who may call which operation, and how often. Its zero value allows everybody
// everything.
type Access struct {
	Keys    *keyring.Ring  // nil for none; Authorization is then ignored
	KeyFor  []string       // operations that need a key, by their ids; * alone for all
	Rate    admit.Rate     // of a client without a key, and of a key whose line says nothing
	Clients int            // without a key, that are remembered; 0 for DefaultClients
	Proxies []netip.Prefix // whose X-Forwarded-For, -Host and -Proto are believed
}

// DefaultClients is the default of Access.Clients.
const DefaultClients = 65536

// validate returns an error that names the invalid setting.
func (a Access) validate(operations []*contract.Operation) error {
	if len(a.KeyFor) > 0 && a.Keys == nil {
		return fmt.Errorf("httpapi: operations need a key, and there are no keys")
	}
	if a.Rate.Requests < 0 || a.Rate.Work < 0 || a.Clients < 0 {
		return fmt.Errorf("httpapi: quotas must not be negative")
	}
	for _, id := range a.KeyFor {
		if id == "*" && len(a.KeyFor) == 1 {
			continue
		}
		if !slices.ContainsFunc(operations, func(op *contract.Operation) bool { return op.ID == id && op.Public }) {
			return fmt.Errorf("httpapi: there is no operation %.40q that could need a key", id)
		}
	}
	return nil
}

// callers holds the accounts of all clients.
type callers struct {
	access   Access
	accounts *admit.Accounts
	keyed    map[string]*admit.Account
}

func newCallers(a Access) *callers {
	if a.Clients == 0 {
		a.Clients = DefaultClients
	}
	return &callers{access: a, accounts: admit.NewAccounts(a.Rate, a.Clients, time.Now), keyed: keyedAccounts(a)}
}

// keyedAccounts creates the accounts of all clients with a key, by name.
func keyedAccounts(a Access) map[string]*admit.Account {
	all := make(map[string]*admit.Account)
	if a.Keys == nil {
		return all
	}
	for _, c := range a.Keys.Clients() {
		r := a.Rate
		if c.Requests >= 0 {
			r.Requests = c.Requests
		}
		if c.Work >= 0 {
			r.Work = c.Work
		}
		all[c.Name] = admit.NewAccount(r, time.Now)
	}
	return all
}

// caller is the client that made a request.
type caller struct {
	key     string // the client's name in the key list; "" without a key
	account *admit.Account
}

// class returns the label of the caller in the metrics.
func (c caller) class() string {
	if c.key != "" {
		return "key"
	}
	return "anonymous"
}

// network returns the part of an address that identifies a client: the whole IPv4 address,
// or the first 64 bits of an IPv6 address, since one client usually has all addresses
// under them. It returns "unknown" for an invalid address.
func network(address string) string {
	a, err := netip.ParseAddr(address)
	if err != nil {
		return "unknown"
	}
	a = a.Unmap().WithZone("")
	if a.Is4() {
		return a.String()
	}
	p, _ := a.Prefix(64)
	return p.String()
}

// cut shortens an address for the log, to 24 bits of IPv4 or 48 of IPv6, so that it does
// not identify a household. It returns "" for an invalid address.
func cut(address string) string {
	a, err := netip.ParseAddr(address)
	if err != nil {
		return ""
	}
	a = a.Unmap().WithZone("")
	bits := 48
	if a.Is4() {
		bits = 24
	}
	p, _ := a.Prefix(bits)
	return p.String()
}

// admitted identifies the caller, charges one request to its quota, and refuses it if it
// has no access. Operations that are not public, such as probes and the contract, are open
// to all.
func (s *Server) admitted(next handler) handler {
	return func(x *exchange) error {
		if !x.row.says.Public {
			return next(x)
		}
		who, denied := s.identify(x)
		if !who.account.None() {
			if err := s.take(x, who); err != nil {
				return err
			}
		}
		if denied != nil {
			s.gate.denied.Inc()
			return denied
		}
		x.caller = who
		return next(x)
	}
}

// identify returns the caller, and an error if the caller has no access. A request with a
// wrong key is refused, and counts against the quota of its address.
func (s *Server) identify(x *exchange) (caller, error) {
	anonymous := func() caller { return caller{account: s.callers.accounts.Of(network(x.address))} }
	access := s.callers.access
	if access.Keys == nil {
		return anonymous(), nil
	}
	for name := range x.r.URL.Query() {
		switch strings.ToLower(name) {
		case "key", "apikey", "api_key", "api-key", "token", "access_token":
			return anonymous(), noKey("a key in the address is seen by everybody: send it in Authorization")
		}
	}
	given := x.r.Header.Values("Authorization")
	switch {
	case len(given) == 0 && access.needsKey(x.row):
		return anonymous(), noKey("this operation needs a key")
	case len(given) == 0:
		return anonymous(), nil
	case len(given) > 1:
		return anonymous(), noKey("there are two of Authorization")
	}
	scheme, key, _ := strings.Cut(given[0], " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return anonymous(), noKey("send Authorization: Bearer and the key")
	}
	client, ok := access.Keys.Find(strings.TrimSpace(key))
	if !ok {
		return anonymous(), noKey("the key is not known")
	}
	return caller{client.Name, s.callers.keyed[client.Name]}, nil
}

// needsKey reports whether an operation requires a key.
func (a Access) needsKey(op *row) bool {
	return slices.Contains(a.KeyFor, op.id) || slices.Contains(a.KeyFor, "*")
}

func noKey(detail string) *Problem {
	return problem(keyWanted, detail).with("WWW-Authenticate", `Bearer realm="bridletie"`)
}

// take charges one request to the caller's quota. It sets the RateLimit fields of the
// response (IETF draft on RateLimit header fields), and returns a problem if the quota is
// used up.
func (s *Server) take(x *exchange, who caller) error {
	v, p := s.takeOne(who)
	policies, rests := make([]string, len(v.Left)), make([]string, len(v.Left))
	for i, l := range v.Left {
		policies[i] = fmt.Sprintf("%q;q=%d;w=%d", l.Policy, l.Quota, int(admit.Window.Seconds()))
		rests[i] = fmt.Sprintf("%q;r=%d;t=%d", l.Policy, l.Rest, l.Again)
	}
	h := x.w.Header()
	h.Set("RateLimit-Policy", strings.Join(policies, ", "))
	h.Set("RateLimit", strings.Join(rests, ", "))
	if p == nil {
		return nil
	}
	return p
}

// takeOne charges one request to the caller's quota, and returns a problem if the quota is
// used up.
func (s *Server) takeOne(who caller) (admit.Verdict, *Problem) {
	v := who.account.Take()
	var used []string
	for _, l := range v.Left {
		if l.Used {
			used = append(used, l.Policy)
			s.gate.limited.WithLabelValues(who.class(), l.Policy).Inc()
		}
	}
	if v.Allowed {
		return v, nil
	}
	p := problem(quotaExceeded, "the quota of "+strings.Join(used, " and ")+" is used").with("Retry-After", strconv.Itoa(min(v.Again, 86400)))
	p.Violated = used
	return v, p
}

package httpapi

import (
	"net/http"
	"net/netip"
	"regexp"
	"strings"
	"sync"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/web"
)

// keptHosts is for how many hosts the contract is kept, compressed too. Whoever
// asks may name any host, so that there must be an end: for others it is made each
// time, which takes a millisecond, and is sent plain.
const keptHosts = 4

// contracts are the contract in one form, by the base at which it is asked for.
type contracts struct {
	media string
	read  func(base string) ([]byte, error)

	mu   sync.Mutex
	kept map[string]func() (web.Document, error)
}

func newContracts(c *contract.Contract) map[string]*contracts {
	return map[string]*contracts{
		"specYaml": {media: "application/yaml", read: c.YAML, kept: make(map[string]func() (web.Document, error))},
		"specJson": {media: contract.JSON, read: c.JSON, kept: make(map[string]func() (web.Document, error))},
	}
}

// at is the contract as it is served at a base.
func (c *contracts) at(base string) (web.Document, error) {
	c.mu.Lock()
	open, ok := c.kept[base]
	if !ok && (len(c.kept) < keptHosts || base == "") {
		open = web.Packed(func() ([]byte, error) { return c.read(base) })
		c.kept[base] = open
	}
	c.mu.Unlock()
	if open != nil {
		return open()
	}
	body, err := c.read(base)
	return web.Document{Plain: web.NewForm(body), Gzipped: func() *web.Form { return nil }}, err
}

// contractHere answers with the contract, which names the host that it was asked at.
func (s *Server) contractHere(x *exchange) (*reply, error) {
	c := s.contracts[x.row.id]
	d, err := c.at(s.opts.base(x.r))
	if err != nil {
		return nil, err
	}
	return x.documented(d, c.media, "no-cache"), nil
}

// hostName is a host as a client may name it: a name or an address, with a port.
var hostName = regexp.MustCompile(`^([A-Za-z0-9]([A-Za-z0-9.-]{0,251}[A-Za-z0-9])?|\[[0-9A-Fa-f:.]{2,45}\])(:[0-9]{1,5})?$`)

// base is the scheme and the host at which a request was sent: as a proxy that is
// believed says, or else as the request does. It is "" where that is no host.
func (a Access) base(r *http.Request) string {
	scheme, host := "http", r.Host
	if r.TLS != nil {
		scheme = "https"
	}
	if a.believed(r.RemoteAddr) {
		if said := strings.ToLower(lastOf(r.Header, "X-Forwarded-Proto")); said == "http" || said == "https" {
			scheme = said
		}
		if said := lastOf(r.Header, "X-Forwarded-Host"); said != "" {
			host = said
		}
	}
	if !hostName.MatchString(host) {
		return ""
	}
	return scheme + "://" + strings.ToLower(host)
}

// believed reports whether the other end of a connection is a proxy whose headers
// are believed.
func (a Access) believed(peer string) bool {
	at, err := netip.ParseAddrPort(peer)
	if err != nil {
		return false
	}
	for _, p := range a.Proxies {
		if p.Contains(at.Addr().Unmap()) {
			return true
		}
	}
	return false
}

// lastOf is the last entry of a header that is a list: that of the nearest proxy.
func lastOf(h http.Header, name string) string {
	all := strings.Split(strings.Join(h.Values(name), ","), ",")
	return strings.TrimSpace(all[len(all)-1])
}

package tlsca

import (
	"net"
	"os"
	"slices"
	"strings"
)

// privateRanges are the addresses that never leave a building: RFC 1918,
// RFC 6598, RFC 4193, link-local and loopback.
var privateRanges = [...]string{
	"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "100.64.0.0/10", "169.254.0.0/16", "127.0.0.0/8",
	"fc00::/7", "fe80::/10", "::1/128",
}

// localDomains are the names that are not resolved outside: RFC 6762, RFC 8375,
// RFC 6761, and the habit of small routers.
var localDomains = [...]string{"local", "home.arpa", "localhost", "lan", "internal"}

func permittedRanges() []*net.IPNet {
	var out []*net.IPNet
	for _, text := range privateRanges {
		if _, n, err := net.ParseCIDR(text); err == nil {
			out = append(out, n)
		}
	}
	return out
}

// permittedNames are the local domains and the machine's own bare name.
func permittedNames(host string) []string {
	names := slices.Clone(localDomains[:])
	if bare := label(host); bare != "" && !slices.Contains(names, bare) {
		names = append(names, bare)
	}
	return names
}

// label is the first part of a host name in lower case, without what a name
// in a certificate may not hold.
func label(host string) string {
	first, _, _ := strings.Cut(strings.ToLower(host), ".")
	return strings.Trim(strings.Map(func(r rune) rune {
		if (r >= 'a' && r <= 'z') || (r >= '0' && r <= '9') || r == '-' {
			return r
		}
		return -1
	}, first), "-")
}

// Names are the names and addresses under which a server is reached.
type Names struct {
	DNS []string
	IP  []net.IP
}

// Local returns this machine's own: its bare name, that name under .local,
// localhost, and its private addresses.
func Local() Names {
	host, _ := os.Hostname() // without one the addresses still serve
	n := Names{DNS: []string{"localhost"}, IP: []net.IP{net.IPv4(127, 0, 0, 1).To4(), net.IPv6loopback}}
	if bare := label(host); bare != "" && bare != "localhost" {
		n.DNS = append(n.DNS, bare, bare+".local")
	}
	addrs, _ := net.InterfaceAddrs()
	for _, addr := range addrs {
		if ipn, ok := addr.(*net.IPNet); ok && !ipn.IP.IsLoopback() && private(ipn.IP) {
			n.IP = append(n.IP, ipn.IP)
		}
	}
	return n
}

func private(ip net.IP) bool {
	return slices.ContainsFunc(permittedRanges(), func(n *net.IPNet) bool { return n.Contains(ip) })
}

// within keeps what the authority may sign for, sorted, each once.
func (a *Authority) within(n Names) Names {
	var out Names
	for _, name := range n.DNS {
		name = strings.ToLower(name)
		if slices.ContainsFunc(a.cert.PermittedDNSDomains, func(d string) bool { return name == d || strings.HasSuffix(name, "."+d) }) {
			out.DNS = append(out.DNS, name)
		}
	}
	for _, ip := range n.IP {
		if private(ip) {
			out.IP = append(out.IP, ip)
		}
	}
	slices.Sort(out.DNS)
	out.DNS = slices.Compact(out.DNS)
	slices.SortFunc(out.IP, func(x, y net.IP) int { return strings.Compare(x.String(), y.String()) })
	out.IP = slices.CompactFunc(out.IP, net.IP.Equal)
	return out
}

func (n Names) equal(dns []string, ips []net.IP) bool {
	return slices.Equal(n.DNS, dns) && slices.EqualFunc(n.IP, ips, net.IP.Equal)
}

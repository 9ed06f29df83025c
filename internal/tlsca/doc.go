// Package tlsca is the shop's own certificate authority. Tablets refuse the
// camera, the outbox and the service worker to a page that does not come over
// HTTPS, and no public authority signs for a name inside a shop; so the shop
// signs for itself. The authority is kept in the data folder (ca.key, ca.crt),
// lives ten years, and is constrained by name to local names and private
// addresses: even somebody who steals its key cannot speak for the rest of the
// world. The server's certificate is made anew when it nears its end or when
// the machine's names or addresses change.
package tlsca

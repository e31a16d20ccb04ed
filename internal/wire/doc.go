// Package wire reads and writes JSON (RFC 8259) for the page: the small part
// of encoding/json that this product needs, with the same tags and the same
// text, in a seventh of its weight. Everything the reader downloads counts,
// and the standard package, with what only it pulls in, is an eighth of that
// (172 kB compressed). The tests hold it to encoding/json, value by value.
//
// Differences: keys match exactly, "<", ">" and "&" are not escaped, a value
// of the wrong kind is an error that names its place, and interfaces are only
// read into as any.
package wire

// Raw is JSON text that is passed through as it stands.
type Raw []byte

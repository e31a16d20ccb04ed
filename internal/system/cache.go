package system

// cache keeps the last few results by key; the one longest unused goes first.
type cache[T any] struct {
	size int
	keys []string
	vals []T
}

func newCache[T any](size int) cache[T] { return cache[T]{size: size} }

func (c *cache[T]) get(key string) (T, bool) {
	for i, k := range c.keys {
		if k == key {
			v := c.vals[i]
			c.keys = append(append(c.keys[:i:i], c.keys[i+1:]...), k)
			c.vals = append(append(c.vals[:i:i], c.vals[i+1:]...), v)
			return v, true
		}
	}
	var zero T
	return zero, false
}

func (c *cache[T]) put(key string, v T) {
	if len(c.keys) == c.size {
		c.keys, c.vals = c.keys[1:], c.vals[1:]
	}
	c.keys, c.vals = append(c.keys, key), append(c.vals, v)
}

// drop takes out the value at i.
func (c *cache[T]) drop(i int) {
	c.keys = append(c.keys[:i:i], c.keys[i+1:]...)
	c.vals = append(c.vals[:i:i], c.vals[i+1:]...)
}

package exact

import "strconv"

// String returns the shortest plain notation: no exponent, no trailing zeros
// after the point. [ParseNumber] reads it back as long as it is within the
// limits of a record.
func (a Number) String() string {
	var buf [24]byte
	return string(a.AppendTo(buf[:0]))
}

// Fixed returns plain notation with at least places digits after the point.
// It pads with zeros and never cuts a digit: round first to have fewer.
func (a Number) Fixed(places int) string {
	var buf [48]byte
	return string(a.AppendFixed(buf[:0], places))
}

// AppendTo appends what [Number.String] returns to dst and returns the longer
// slice. It allocates nothing when dst has room, unless a has more digits than
// fit 64 bits.
func (a Number) AppendTo(dst []byte) []byte {
	if d := a.big(); d != nil {
		return append(dst, d.String()...)
	}
	return a.trim().appendScale(dst)
}

// AppendFixed is [Number.AppendTo] for [Number.Fixed].
func (a Number) AppendFixed(dst []byte, places int) []byte {
	dst = a.AppendTo(dst)
	have := a.Places()
	if have == 0 && places > 0 {
		dst = append(dst, '.')
	}
	for range clampPlaces(places) - have {
		dst = append(dst, '0')
	}
	return dst
}

// appendScale appends a small number with exactly its scale.
func (a Number) appendScale(dst []byte) []byte {
	if a.scale() == 0 {
		return strconv.AppendInt(dst, a.coef, 10)
	}
	if a.coef < 0 {
		dst = append(dst, '-')
	}
	u, unit := abs64(a.coef), uint64(pow10[a.scale()])
	dst = strconv.AppendUint(dst, u/unit, 10)
	dst = append(dst, ".000000000000000000"[:1+a.scale()]...)
	for at, rest := len(dst)-1, u%unit; rest > 0; at, rest = at-1, rest/10 {
		dst[at] = byte('0' + rest%10)
	}
	return dst
}

package sailing

// MarshalText returns the name of WGS84, Clarke 1866 or the sphere of the sailings. For other
// figures it adds the exact radius and flattening:
//
//	Orlesk datum (equatorial radius 6378388 m, flattening 0.003367003367003367)
//
// It is not read back: make the figure again with [NewEllipsoid].
func (e *Ellipsoid) MarshalText() ([]byte, error) {
	e = e.or()
	b := []byte(e.name)
	for _, known := range []*Ellipsoid{wgs84, clarke, mileArc} {
		if *e == *known {
			return b, nil
		}
	}
	b = append(append(b, " (equatorial radius "...), figures(e.a)...)
	b = append(append(b, " m, flattening "...), figures(e.f)...)
	return append(b, ')'), nil
}

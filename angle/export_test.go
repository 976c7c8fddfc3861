package angle

// AppendExactEastWest is what EastWest writes with, of any angle at all.
var AppendExactEastWest = Angle.appendExactEastWest

// Package sky gives the Sun's true bearing, the mark against which a compass is
// checked at sea where there is no land to take one from.
//
//	s, err := sky.At(time.Date(2026, time.May, 14, 19, 40, 0, 0, time.UTC))
//	if err != nil {
//		log.Fatal(err)
//	}
//	sight := s.From(angle.MustParsePosition("47°08.4′N 019°00.0′W"))
//	fmt.Printf("%.1v at %v\n", sight.Azimuth, sight.Altitude) // 287°50.5′T at 9°06.7′
//
// # Where to begin
//
// To check a compass by the Sun do not subtract by hand:
// [lubberline.example/deviation/check.Reading.AgainstSun] and
// [lubberline.example/deviation/check.Reading.AgainstAmplitude] give the compass error
// and the deviation, with the working and what they are known to. This package is for the
// bearing alone, for other tables, and for the times of rising and setting.
//
// [At] is the Sun's place in the sky at an instant, and [Sun.From] what is seen
// of it from a position: its true bearing (azimuth) and its altitude. [Azimuth]
// solves the same triangle from latitude, declination and hour angle, as
// azimuth tables do. [Amplitude] and [AmplitudeOnVisibleHorizon] give the bearing
// at rising and at setting from latitude and declination alone, as amplitude
// tables do. [Next] is the time of the next rising, setting or meridian
// passage. [Sight.Working] shows the figures step by step.
//
// The error of the compass is the true bearing less the bearing by compass; what
// the variation leaves of it is the deviation (package
// [lubberline.example/deviation]).
//
// # Signs
//
// Declination and latitude are positive north, longitude east. Hour angles are
// counted westward, as almanacs print them, in [0°, 360°): the local hour angle is
// the Greenwich hour angle plus the east longitude, is zero when the Sun is on
// the meridian, over 180° before noon and under it after noon.
//
// # Formulas
//
// The Sun's longitude is the elliptic motion of J. Meeus, Astronomical Algorithms
// (2nd edition, 1998), chapter 25, lower accuracy, with the fifteen largest
// periodic terms of the planets and the Moon from VSOP87 (P. Bretagnon and
// G. Francou, Astronomy and Astrophysics 202, 1988; Meeus, appendix III) added to
// it; nutation, obliquity and sidereal time are of Meeus, chapters 12 and 22. All
// are cited from memory, and were checked against the reference below. The
// altitude h and the azimuth Z, at latitude φ, declination δ and local hour angle
// H, are those of the ordinary spherical triangle:
//
//	sin h = sin φ sin δ + cos φ cos δ cos H
//	tan Z = −cos δ sin H / (cos φ sin δ − sin φ cos δ cos H)
//
// UT1 is taken as UTC, which is within 0.9 s (0.004° of hour angle) as long as
// UTC is kept so. TT − UTC is taken as 69.184 s, as it was in the 2020s; it was
// 29 s in 1950, and if it should come to 200 s by 2100 the Sun's place would be
// wrong by 0.0015° at most.
//
// # Accuracy
//
// Against 500 places and instants from 2000 to 2050 computed with ERFA, the
// open release of the IAU's routines, the largest differences are 0.0005° of
// declination and 0.0009° of hour angle, and of azimuth 0.0008° sideways (the
// difference multiplied by the cosine of the altitude). Without the fifteen terms
// the hour angle is up to 0.010° off. A bearing by compass is good to a
// quarter of a degree at best, so that what matters is the time, the position and
// above all the altitude: the higher the Sun, the faster its bearing changes and
// the more a tilted compass card or sight vane spoils it. Low is best.
//
// # Cautions
//
// Never look at the Sun without a proper shade, through an azimuth mirror or
// otherwise: it blinds. An amplitude is good only as its rule says, see
// [CelestialHorizon] and [VisibleHorizon]; in high latitudes, where the Sun moves
// along the horizon, a small error of altitude is a large error of bearing, and
// refraction at the horizon is uncertain. The standing caution of the module,
// [lubberline.example/angle/working.Caution], applies.
package sky

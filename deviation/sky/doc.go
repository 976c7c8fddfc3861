// Package sky gives the true bearing of the Sun, of a star or of another body. At sea, with
// no land in sight, it is the mark against which a compass is checked by day and by night.
//
//	now := time.Date(2026, time.May, 14, 19, 40, 0, 0, time.UTC)
//	here := angle.MustParsePosition("47°08.4′N 019°00.0′W")
//	sun, err := sky.Sun(now)
//	if err != nil {
//		log.Fatal(err)
//	}
//	sight := sun.From(here)
//	fmt.Printf("%.1v at %v\n", sight.Azimuth, sight.Altitude) // 287°50.5′T at 9°06.7′
//
// # Where to begin
//
// To check a compass use package [lubberline.example/deviation/check]. It gives the compass
// error and the deviation, with the working and the uncertainty. This package is for the bearing
// alone, for other tables, and for the times of rising and setting.
//
//   - [Sun] and [Star] compute the place of a body at an instant: its declination and Greenwich
//     hour angle. [StarNames] are the 57 navigational stars and Polaris.
//   - For the Moon and the planets, take both from an almanac and make a [Body] of them.
//   - [Body.From] gives what is seen from a position: true bearing (azimuth) and altitude.
//     [Sight.Working] shows the figures step by step.
//   - [Azimuth] solves the same triangle from latitude, declination and hour angle, as azimuth
//     tables do. [Amplitude] and [AmplitudeOnVisibleHorizon] give the bearing at rising and
//     setting from latitude and declination alone, as amplitude tables do.
//   - [WellPlaced] lists the bodies that stand well for a check now.
//   - [Next] is the time of the Sun's next rising, setting or meridian passage.
//
// The compass error is the true bearing minus the compass bearing. The deviation is the compass
// error minus the variation (package [lubberline.example/deviation]).
//
// # Signs
//
// Declination and latitude are positive north, longitude east. Hour angles are counted westward, as
// almanacs print them, in [0°, 360°). The local hour angle is the Greenwich hour angle plus the
// east longitude. It is zero if the body is on the meridian. East of the meridian it is over 180°,
// and west of it under 180°.
//
// # Formulas
//
// The Sun's longitude is the elliptic motion of J. Meeus, Astronomical Algorithms (2nd edition,
// 1998), chapter 25, lower accuracy. To it are added the fifteen largest periodic terms of the
// planets and the Moon from VSOP87 (P. Bretagnon and G. Francou, Astronomy and Astrophysics 202,
// 1988; Meeus, appendix III). Nutation, obliquity and sidereal time are of Meeus, chapters 12
// and 22. All are cited from memory, and were checked against the reference below.
//
// A star's place is that of The Hipparcos and Tycho Catalogues (ESA SP-1200, 1997), with proper
// motion, precession (IAU 2006), nutation and annual aberration. The star's own parallax, at most
// 0.8″, and the diurnal aberration of 0.3″ are left out. So is the bending of light within 2° of
// the Sun, where no star is seen.
//
// The altitude h and the azimuth Z, at latitude φ, declination δ and local hour angle H, are those
// of the ordinary spherical triangle:
//
//	sin h = sin φ sin δ + cos φ cos δ cos H
//	tan Z = −cos δ sin H / (cos φ sin δ − sin φ cos δ cos H)
//
// UT1 is taken as UTC. They differ by at most 0.9 s (0.004° of hour angle) as long as UTC is kept
// so. TT − UTC is taken as 69.184 s, as it was in the 2020s. It was 29 s in 1950; if it is 200 s
// in 2100, the Sun's place is wrong by 0.0015° at most.
//
// # Accuracy
//
// ERFA is the open release of the IAU's routines. The Sun was compared with it at 500 places and
// instants from 2000 to 2050. The largest differences are 0.0005° of declination, 0.0009° of hour
// angle, and 0.0008° of azimuth. Differences of azimuth are multiplied by the cosine of the
// altitude. Without the fifteen terms the hour angle is up to 0.010° off. The stars were compared
// at 580 places and instants from 1990 to 2050. The largest differences are 0.00005° of declination
// and hour angle, and 0.00013° of azimuth. At 5,000 random places and instants from 1950 to 2100
// they were 0.00008° and 0.00016°.
//
// A bearing by compass is good to a quarter of a degree at best. What matters is the time, the
// position and above all the altitude. The higher a body, the faster its bearing changes, and the
// more a tilted compass card or sight vane spoils it. Observe it low. The bearing of Polaris hardly
// changes, so its time does not matter.
//
// # What it does not cover
//
// The places of the Moon and the planets are not computed. The rising and setting of stars, Moon
// and planets are not searched for. Refraction raises a body and does not change its bearing; only
// [Sight.Apparent] and the amplitude on the visible horizon need it. Parallax lowers the Moon by up
// to 1°. Its effect on the bearing is left out; it is less than 0.01° below an altitude of 45°.
//
// # Cautions
//
// Never look at the Sun without a proper shade, through an azimuth mirror or otherwise: it blinds.
// An amplitude is good only as its rule says, see [CelestialHorizon] and [VisibleHorizon]. In high
// latitudes the Sun moves along the horizon: a small error of altitude is a large error of bearing.
// Refraction at the horizon is uncertain too. The standing caution of the module,
// [lubberline.example/angle/working.Caution], applies.
package sky

package bugs

import (
	"math"
	"slices"
	"time"

	"lubberline.example/conformance/slip"
)

// skyBugs are mistakes in the direction and the place of the Sun.
var skyBugs = slices.Concat(
	on("sun.azimuth",
		bug("morning-for-afternoon", "The azimuth of the afternoon is that of the morning.", after(func(x float64) float64 {
			return math.Abs(halfCircle(x))
		}, "azimuthDegrees")),
		slipped(slip.EastForWest, before(otherWayRound, "hourAngleDegrees")),
		slippedAs(slip.NorthForSouth, "latitude-negated", "The latitude has the wrong name.", before(negated, "latitudeDegrees")),
		slippedAs(slip.NorthForSouth, "south-latitude-as-north", "The name of the latitude is not looked at.", before(math.Abs, "latitudeDegrees")),
		slippedAs(slip.NorthForSouth, "declination-negated", "The declination has the wrong name.", before(negated, "declinationDegrees")),
		slippedAs(slip.NorthForSouth, "declination-name-ignored", "The name of the declination is not looked at.", before(math.Abs, "declinationDegrees")),
		bug("from-south", "The azimuth is counted from south.", after(opposite, "azimuthDegrees")),
		bug("from-south-in-south-latitude", "In south latitude the azimuth is counted from south, as the tables do.", reply(func(g given, a answer) {
			if number(g, "latitudeDegrees") < 0 {
				edit(a, func(x float64) float64 { return fullCircle(180 - x) }, "azimuthDegrees")
			}
		})),
		bug("arc-sine", "The arc sine gives azimuths within 90° of north.", after(func(x float64) float64 {
			return fullCircle(math.Asin(sine(x)) * 180 / math.Pi)
		}, "azimuthDegrees")),
		bug("arc-tangent-of-a-quotient", "The arc tangent of a quotient loses the quadrant.", after(func(x float64) float64 {
			return fullCircle(math.Atan(tangent(x)) * 180 / math.Pi)
		}, "azimuthDegrees")),
		bug("arc-cosine", "The arc cosine gives azimuths up to 180° only.", after(func(x float64) float64 { return math.Acos(cosine(x)) * 180 / math.Pi }, "azimuthDegrees")),
		bug("western-half-negative", "Azimuths of the western half are negative.", after(halfCircle, "azimuthDegrees")),
		bug("hours-for-degrees", "The hour angle is divided by 15.", before(times(1.0/15), "hourAngleDegrees")),
		bug("eastward-hour-angle", "The hour angle over 180° is taken as eastward of the lower meridian.", before(func(x float64) float64 { return math.Mod(x+180, 360) }, "hourAngleDegrees")),
		bug("altitude-negated", "The altitude has the wrong sign.", after(negated, "altitudeDegrees")),
		bug("altitude-below-the-horizon-lost", "An altitude below the horizon has no sign.", after(math.Abs, "altitudeDegrees")),
		bug("zenith-distance", "The zenith distance is given as the altitude.", after(func(x float64) float64 { return 90 - x }, "altitudeDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "azimuthDegrees", "altitudeDegrees")),
		bug("in-radians", "The azimuth is given in radians.", after(inRadians, "azimuthDegrees")),
		bug("declination-and-latitude-exchanged", "Latitude and declination are exchanged.", question(func(g given) { swap(g, "latitudeDegrees", "declinationDegrees") })),
	),
	on("sun.amplitude",
		bug("latitude-left-out", "The amplitude is the declination.", before(zero, "latitudeDegrees")),
		slipped(slip.SineForCosine, before(func(x float64) float64 { return math.Copysign(90-math.Abs(x), x) }, "latitudeDegrees")),
		bug("multiplied", "The sine of the declination is multiplied by the cosine of the latitude.", reply(func(g given, a answer) {
			x := math.Asin(sine(number(g, "declinationDegrees"))*cosine(number(g, "latitudeDegrees"))) * 180 / math.Pi
			a["amplitudeDegrees"], a["risingDegrees"], a["settingDegrees"] = x, 90-x, 270+x
		})),
		bug("declination-over-cosine", "The declination itself is divided by the cosine.", reply(func(g given, a answer) {
			x := number(g, "declinationDegrees") / cosine(number(g, "latitudeDegrees"))
			a["amplitudeDegrees"], a["risingDegrees"], a["settingDegrees"] = x, 90-x, 270+x
		})),
		bug("declination-negated", "The declination has the wrong name.", before(negated, "declinationDegrees")),
		bug("declination-name-ignored", "The name of the declination is not looked at.", before(math.Abs, "declinationDegrees")),
		bug("south-latitude-turns-the-name", "In south latitude the amplitude is named the other way.", question(func(g given) {
			if number(g, "latitudeDegrees") < 0 {
				edit(g, negated, "declinationDegrees")
			}
		})),
		bug("exchanged", "Rising and setting are exchanged.", reply(func(_ given, a answer) { swap(a, "risingDegrees", "settingDegrees") })),
		bug("setting-as-rising", "The setting is 270° less the amplitude.", reply(func(_ given, a answer) { a["settingDegrees"] = 270 - number(a, "amplitudeDegrees") })),
		bug("rising-wrong-way", "The rising is 90° plus the amplitude.", reply(func(_ given, a answer) { a["risingDegrees"] = 90 + number(a, "amplitudeDegrees") })),
		bug("amplitude-without-name", "The amplitude has no name.", after(math.Abs, "amplitudeDegrees")),
		bug("setting-negative", "The setting is a negative azimuth.", after(halfCircle, "settingDegrees")),
		bug("visible-horizon", "The Sun is taken with its centre on the visible horizon, 0.7° lower.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			shift := 0.7 * tangent(number(g, "latitudeDegrees"))
			edit(a, plus(shift), "amplitudeDegrees")
			edit(a, plus(-shift), "risingDegrees")
			edit(a, plus(shift), "settingDegrees")
			return a, nil
		}),
		slipped(slip.RoundedTooFar, after(whole, "amplitudeDegrees", "risingDegrees", "settingDegrees")),
		bug("no-rising-answered", "Where the Sun does not set, the arc sine is cut off at 90°.", accepts("", func(given) answer {
			return answer{"amplitudeDegrees": 90.0, "risingDegrees": 0.0, "settingDegrees": 0.0}
		})),
	),
	on("star.place",
		slipped(slip.EastForWest, before(negated, "longitudeDegrees")),
		slipped(slip.NorthForSouth, before(negated, "latitudeDegrees")),
		bug("rigel-for-rigil", "Rigil Kentaurus is taken for Rigel.", question(func(g given) {
			if text(g, "star") == "Rigil Kentaurus" {
				g["star"] = "Rigel"
			}
		})),
		bug("always-sirius", "The name of the star is not looked at.", question(func(g given) { g["star"] = "Sirius" })),
		bug("one-day-off", "The day is one too many.", clock(func(t time.Time) time.Time { return t.AddDate(0, 0, 1) })),
		bug("one-hour-off", "The summer time of Greenwich is taken as UTC.", clock(func(t time.Time) time.Time { return t.Add(-time.Hour) })),
		bug("seconds-left-out", "The seconds of the time are left out.", clock(func(t time.Time) time.Time { return t.Truncate(time.Minute) })),
		bug("year-of-2000", "The same day of the year 2000 is used.", clock(func(t time.Time) time.Time {
			return time.Date(2000, t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
		})),
		bug("sidereal-hour-angle", "The sidereal hour angle is given as that of Greenwich.", reply(func(g given, a answer) {
			if t, err := time.Parse(time.RFC3339, text(g, "utc")); err == nil {
				days := t.Sub(time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)).Hours() / 24
				edit(a, func(x float64) float64 { return fullCircle(x - 280.4606 - 360.985647*days) }, "greenwichHourAngleDegrees")
			}
		})),
		bug("hour-angle-eastward", "The hour angle is counted eastward.", after(otherWayRound, "greenwichHourAngleDegrees")),
		bug("hour-angle-local", "The local hour angle is given.", reply(func(g given, a answer) {
			edit(a, func(x float64) float64 { return fullCircle(x + number(g, "longitudeDegrees")) }, "greenwichHourAngleDegrees")
		})),
		bug("hour-angle-in-hours", "The hour angle is given in hours.", after(times(1.0/15), "greenwichHourAngleDegrees")),
		bug("declination-negated", "The declination has the wrong name.", after(negated, "declinationDegrees")),
		bug("azimuth-from-south", "The azimuth is counted from south.", after(opposite, "azimuthDegrees")),
		bug("azimuth-eastward-only", "A body west of the meridian has the azimuth of one east of it.", after(func(x float64) float64 { return math.Abs(halfCircle(x)) }, "azimuthDegrees")),
		bug("refraction-added", "The altitude is the apparent one, with refraction.", after(func(h float64) float64 {
			if h < -1 {
				return h
			}
			return h + 1.02/60/tangent(h+10.3/(h+5.11))
		}, "altitudeDegrees")),
		bug("zenith-distance", "The zenith distance is given as the altitude.", after(func(x float64) float64 { return 90 - x }, "altitudeDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "azimuthDegrees", "altitudeDegrees", "declinationDegrees")),
	),
	on("sun.place",
		slipped(slip.EastForWest, before(negated, "longitudeDegrees")),
		slipped(slip.NorthForSouth, before(negated, "latitudeDegrees")),
		bug("one-day-off", "The day is one too many.", clock(func(t time.Time) time.Time { return t.AddDate(0, 0, 1) })),
		bug("one-hour-off", "The summer time of Greenwich is taken as UTC.", clock(func(t time.Time) time.Time { return t.Add(-time.Hour) })),
		bug("seconds-left-out", "The seconds of the time are left out.", clock(func(t time.Time) time.Time { return t.Truncate(time.Minute) })),
		bug("twelve-hours", "The afternoon is read as the morning.", clock(func(t time.Time) time.Time {
			if t.Hour() >= 12 {
				return t.Add(-12 * time.Hour)
			}
			return t
		})),
		bug("year-of-2000", "The same day of the year 2000 is used.", clock(func(t time.Time) time.Time {
			return time.Date(2000, t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
		})),
		bug("equation-of-time-left-out", "The hour angle is that of the mean Sun.", reply(func(g given, a answer) {
			if t, err := time.Parse(time.RFC3339, text(g, "utc")); err == nil {
				hours := float64(t.Hour()) + float64(t.Minute())/60 + float64(t.Second())/3600
				a["greenwichHourAngleDegrees"] = fullCircle(15*hours + 180)
			}
		})),
		bug("hour-angle-from-midnight", "The hour angle is counted from midnight.", after(opposite, "greenwichHourAngleDegrees")),
		bug("hour-angle-eastward", "The hour angle is counted eastward.", after(otherWayRound, "greenwichHourAngleDegrees")),
		bug("hour-angle-local", "The local hour angle is given.", reply(func(g given, a answer) {
			edit(a, func(x float64) float64 { return fullCircle(x + number(g, "longitudeDegrees")) }, "greenwichHourAngleDegrees")
		})),
		bug("hour-angle-in-hours", "The hour angle is given in hours.", after(times(1.0/15), "greenwichHourAngleDegrees")),
		bug("declination-negated", "The declination has the wrong name.", after(negated, "declinationDegrees")),
		bug("sine-curve-declination", "The declination is 23.45° times a sine of the day of the year.", reply(func(g given, a answer) {
			if t, err := time.Parse(time.RFC3339, text(g, "utc")); err == nil {
				a["declinationDegrees"] = 23.45 * sine(360.0/365*float64(284+t.YearDay()))
			}
		})),
		bug("azimuth-from-south", "The azimuth is counted from south.", after(opposite, "azimuthDegrees")),
		bug("azimuth-morning-only", "The azimuth of the afternoon is that of the morning.", after(func(x float64) float64 { return math.Abs(halfCircle(x)) }, "azimuthDegrees")),
		bug("refraction-added", "The altitude is the apparent one, with refraction.", after(func(h float64) float64 {
			if h < -1 {
				return h
			}
			return h + 1.02/60/tangent(h+10.3/(h+5.11))
		}, "altitudeDegrees")),
		bug("upper-limb", "The altitude is that of the upper limb.", after(plus(0.267), "altitudeDegrees")),
		bug("zenith-distance", "The zenith distance is given as the altitude.", after(func(x float64) float64 { return 90 - x }, "altitudeDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "azimuthDegrees", "altitudeDegrees", "declinationDegrees")),
	),
)

// clock changes the time of the question.
func clock(change func(time.Time) time.Time) mistake {
	return question(func(g given) {
		if t, err := time.Parse(time.RFC3339, text(g, "utc")); err == nil {
			g["utc"] = change(t).Format(time.RFC3339)
		}
	})
}

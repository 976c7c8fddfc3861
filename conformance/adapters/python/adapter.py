"""An adapter in Python for at least one operation of each topic, with its own formulas.

    go run ./conformance/run -- python3 conformance/adapters/python/adapter.py

Each operation takes what a case gives and returns the answer. To test a library, replace
the bodies by calls of the library. field.py has the magnetic field.
"""

import datetime
import json
import math
import re
import sys

sys.dont_write_bytecode = True  # leave no files beside this one
import field


class Declined(Exception):
    """The program cannot answer this case; the text is the reason."""


class Refused(Exception):
    """The input is invalid; the text is the kind of refusal."""


def turn(degrees):
    """The shorter way round: from -180 to 180."""
    return (degrees + 180) % 360 - 180


def sin(degrees):
    return math.sin(math.radians(degrees))


def cos(degrees):
    return math.cos(math.radians(degrees))


def plane(given):
    course, distance = given["courseDegrees"], given["distanceMiles"]
    return {"dLatMinutes": distance * cos(course), "departureMiles": distance * sin(course)}


def plane_of(given):
    north, east = given["dLatMinutes"], given["departureMiles"]
    course = math.degrees(math.atan2(east, north)) % 360
    return {"courseDegrees": course, "distanceMiles": math.hypot(north, east)}


def great_circle(given):
    lat1, lon1 = given["from"]["latitudeDegrees"], given["from"]["longitudeDegrees"]
    lat2, lon2 = given["to"]["latitudeDegrees"], given["to"]["longitudeDegrees"]
    d = lon2 - lon1
    north = cos(lat1) * sin(lat2) - sin(lat1) * cos(lat2) * cos(d)
    east = sin(d) * cos(lat2)
    along = sin(lat1) * sin(lat2) + cos(lat1) * cos(lat2) * cos(d)
    course = math.degrees(math.atan2(east, north)) % 360
    vertex = math.degrees(math.acos(abs(sin(course)) * cos(lat1)))
    distance = 60 * math.degrees(math.atan2(math.hypot(north, east), along))
    return {"courseDegrees": course, "distanceMiles": distance, "vertexLatitudeDegrees": vertex}


def to_steer(given):
    drift, speed = given["driftKnots"], given["speedKnots"]
    off = given["setDegrees"] - given["trackDegrees"]
    across = drift * sin(off)
    if abs(across) > speed:
        raise Refused("stream-too-strong")
    correction = -math.degrees(math.asin(across / speed))
    made_good = speed * cos(correction) + drift * cos(off)
    if made_good <= 0:
        raise Refused("stream-too-strong")
    return {"courseDegrees": (given["trackDegrees"] + correction) % 360, "speedMadeGoodKnots": made_good}


def amplitude(given):
    lat, dec = given["latitudeDegrees"], given["declinationDegrees"]
    if abs(lat) + abs(dec) > 90:  # the body does not cross the horizon
        raise Refused("stays-above" if lat * dec > 0 else "stays-below")
    a = math.degrees(math.asin(sin(given["declinationDegrees"]) / cos(given["latitudeDegrees"])))
    return {"amplitudeDegrees": a, "risingDegrees": 90 - a, "settingDegrees": 270 + a}


def two_bearings(given):
    first, second, run = given["firstDegrees"], given["secondDegrees"], given["runMiles"]
    if second <= first:
        raise Refused("out-of-range")
    factor = sin(first) / sin(second - first)
    abeam = factor * sin(second)
    return {"secondFactor": factor, "abeamFactor": abeam, "distanceMiles": run * factor, "abeamMiles": run * abeam}


def check(given):
    error = turn(given["trueDegrees"] - given["compassDegrees"])
    return {"errorDegrees": error, "deviationDegrees": turn(error - given["variationDegrees"])}


def mean(given):
    north = sum(cos(d) for d in given["directionsDegrees"])
    east = sum(sin(d) for d in given["directionsDegrees"])
    if math.hypot(north, east) < 1e-9:  # they cancel
        raise Refused("out-of-range")
    return {"meanDegrees": math.degrees(math.atan2(east, north)) % 360}


def relative(given):
    return {"relativeDegrees": (given["bearingDegrees"] - given["headingDegrees"]) % 360}


def deduce(given):
    error = turn(given["trueDegrees"] - given["compassDegrees"])
    answer = {"errorDegrees": error}
    if "variationDegrees" in given:
        answer["deviationDegrees"] = turn(error - given["variationDegrees"])
    if "deviationDegrees" in given:
        answer["variationDegrees"] = turn(error - given["deviationDegrees"])
    return answer


def on_compass(given):
    """Enter a deviation table with a compass heading; go between rows in proportion."""
    compass = given["compassDegrees"]
    if given["by"] == "compass":
        deviation = between_rows(given["table"], compass)
    else:  # the magnetic heading that with its own deviation gives the compass heading
        deviation = 0.0
        for _ in range(200):
            deviation = between_rows(given["table"], compass + deviation)
    return {"deviationDegrees": deviation, "magneticDegrees": (compass + deviation) % 360}


def between_rows(table, heading):
    rows = sorted((row["headingDegrees"], row["deviationDegrees"]) for row in table)
    heading %= 360
    for (low, first), (high, second) in zip(rows, rows[1:] + [(rows[0][0] + 360, rows[0][1])]):
        for h in (heading, heading + 360):  # the last row and the first lie about north
            if low <= h <= high:
                return first + (second - first) * (h - low) / (high - low)
    raise Declined("the table does not go round the circle")


def on_date(given):
    """Bring a legend such as 4°15′W 2009 (8′E) to a date."""
    parts = re.fullmatch(r"(\d+)°(\d+)′([EW]) (\d+) \(([\d.]+)′([EW])\)", given["legend"])
    if parts is None:
        raise Declined("this adapter reads one form of legend")
    degrees, minutes, name, year, change, direction = parts.groups()
    variation = (float(degrees) + float(minutes) / 60) * (1 if name == "E" else -1)
    annual = float(change) / 60 * (1 if direction == "E" else -1)
    date = datetime.datetime.fromisoformat(given["date"].replace("Z", "+00:00"))
    years = date.year - int(year)
    if given["yearCount"] == "decimal":
        start = datetime.datetime(date.year, 1, 1, tzinfo=datetime.timezone.utc)
        end = datetime.datetime(date.year + 1, 1, 1, tzinfo=datetime.timezone.utc)
        years += (date - start) / (end - start)
    return {"years": years, "variationDegrees": variation + annual * years}


def magnetic_field(given):
    since = given["year"] - float(given["model"].removeprefix("WMM"))
    if not 0 <= since <= 5:  # the years of a model
        raise Refused("outside-years")
    return field.evaluate(given)


OPERATIONS = {
    "angle.mean": mean,
    "angle.relative": relative,
    "course.deduce": deduce,
    "deviation.onCompass": on_compass,
    "variation.onDate": on_date,
    "field.evaluate": magnetic_field,
    "sailing.plane": plane,
    "sailing.planeOf": plane_of,
    "sailing.greatCircle": great_circle,
    "current.toSteer": to_steer,
    "sun.amplitude": amplitude,
    "fix.twoBearings": two_bearings,
    "check.bearing": check,
}


def respond(request):
    if "hello" in request:
        return {"hello": 1, "name": "python-adapter", "version": "1", "offers": sorted(OPERATIONS)}
    response = {"case": request["case"]}
    try:
        response["answer"] = OPERATIONS[request["operation"]](request["given"])
    except Refused as kind:
        response["refused"] = {"kind": str(kind)}
    except Declined as why:
        response["declined"] = str(why)
    except Exception as error:  # shown as "broke", with the case
        response["broke"] = repr(error)
    return response


for line in sys.stdin:
    message = json.loads(line)
    if message.get("bye"):
        break
    print(json.dumps(respond(message)), flush=True)  # flush every line

"""An adapter in Python for a few operations, with its own arithmetic.

    go run ./conformance/run -- python3 conformance/adapters/python/adapter.py

Each operation takes what a case gives and returns the answer. Replace the bodies by
calls of the library to be checked.
"""

import json
import math
import sys


class Declined(Exception):
    """This case can't be worked here, and why."""


class Refused(Exception):
    """The input must not be worked; the first word is the kind."""


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
    a = math.degrees(math.asin(sin(given["declinationDegrees"]) / cos(given["latitudeDegrees"])))
    return {"amplitudeDegrees": a, "risingDegrees": 90 - a, "settingDegrees": 270 + a}


def two_bearings(given):
    first, second, run = given["firstDegrees"], given["secondDegrees"], given["runMiles"]
    factor = sin(first) / sin(second - first)
    abeam = factor * sin(second)
    return {"secondFactor": factor, "abeamFactor": abeam, "distanceMiles": run * factor, "abeamMiles": run * abeam}


def check(given):
    error = turn(given["trueDegrees"] - given["compassDegrees"])
    return {"errorDegrees": error, "deviationDegrees": turn(error - given["variationDegrees"])}


OPERATIONS = {
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

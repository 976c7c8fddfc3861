// An adapter in JavaScript for at least one operation of each topic, with its own formulas.
//
//     go run ./conformance/run -- node conformance/adapters/javascript/adapter.mjs
//
// Each operation takes what a case gives and returns the answer. To test a library, replace
// the bodies by calls of the library. field.mjs has the magnetic field.

import { createInterface } from "node:readline";
import { evaluate } from "./field.mjs";

const radians = Math.PI / 180;
const sin = (degrees) => Math.sin(degrees * radians);
const cos = (degrees) => Math.cos(degrees * radians);
const circle = (degrees) => ((degrees % 360) + 360) % 360;
const turn = (degrees) => circle(degrees + 180) - 180; // the shorter way round
const direction = (north, east) => circle(Math.atan2(east, north) / radians);

// The program cannot answer this case; the message is the reason.
class Declined extends Error {}

// The input is invalid; the message is the kind of refusal.
class Refused extends Error {}

// The year of a time with its fraction of that year.
function decimalYear(text) {
  const date = new Date(text);
  const year = date.getUTCFullYear();
  const start = Date.UTC(year, 0, 1);
  return year + (date - start) / (Date.UTC(year + 1, 0, 1) - start);
}

const operations = {
  "angle.mean": ({ directionsDegrees }) => {
    const sum = (f) => directionsDegrees.reduce((total, d) => total + f(d), 0);
    const [north, east] = [sum(cos), sum(sin)];
    if (Math.hypot(north, east) < 1e-9) throw new Refused("out-of-range"); // they cancel
    return { meanDegrees: direction(north, east) };
  },

  "angle.reciprocal": ({ directionDegrees }) => ({ reciprocalDegrees: circle(directionDegrees + 180) }),

  "course.deduce": ({ trueDegrees, compassDegrees, variationDegrees, deviationDegrees }) => {
    const errorDegrees = turn(trueDegrees - compassDegrees);
    return {
      errorDegrees,
      ...(variationDegrees !== undefined && { deviationDegrees: turn(errorDegrees - variationDegrees) }),
      ...(deviationDegrees !== undefined && { variationDegrees: turn(errorDegrees - deviationDegrees) }),
    };
  },

  // A legend such as 4°15′W 2009 (8′E), brought to a date.
  "variation.onDate": ({ legend, date, yearCount }) => {
    const parts = /^(\d+)°(\d+)′([EW]) (\d+) \(([\d.]+)′([EW])\)$/.exec(legend);
    if (!parts) throw new Declined("this adapter reads one form of legend");
    const [, degrees, minutes, name, year, change, towards] = parts;
    const east = (letter) => (letter === "E" ? 1 : -1);
    const now = yearCount === "decimal" ? decimalYear(date) : new Date(date).getUTCFullYear();
    const years = now - Number(year);
    const variation = east(name) * (Number(degrees) + Number(minutes) / 60);
    return { years, variationDegrees: variation + (east(towards) * years * Number(change)) / 60 };
  },

  "field.evaluate": (given) => {
    const since = given.year - Number(given.model.slice("WMM".length));
    if (since < 0 || since > 5) throw new Refused("outside-years"); // the years of a model
    return evaluate(given);
  },

  "angle.relative": ({ headingDegrees, bearingDegrees }) => ({
    relativeDegrees: circle(bearingDegrees - headingDegrees),
  }),

  "angle.bearing": ({ headingDegrees, relativeDegrees }) => ({
    bearingDegrees: circle(headingDegrees + relativeDegrees),
  }),

  "deviation.curve": (k) => ({
    deviationsDegrees: k.headingsDegrees.map(
      (z) => k.aDegrees + k.bDegrees * sin(z) + k.cDegrees * cos(z) + k.dDegrees * sin(2 * z) + k.eDegrees * cos(2 * z),
    ),
  }),

  "deviation.between": ({ compassDegrees, magneticDegrees }) => ({
    deviationDegrees: turn(magneticDegrees - compassDegrees),
  }),

  "current.toSteer": ({ trackDegrees, speedKnots, setDegrees, driftKnots }) => {
    const off = setDegrees - trackDegrees;
    const across = driftKnots * sin(off);
    if (Math.abs(across) > speedKnots) throw new Refused("stream-too-strong");
    const correction = -Math.asin(across / speedKnots) / radians;
    const speedMadeGoodKnots = speedKnots * cos(correction) + driftKnots * cos(off);
    if (speedMadeGoodKnots <= 0) throw new Refused("stream-too-strong");
    return { courseDegrees: circle(trackDegrees + correction), speedMadeGoodKnots };
  },

  "current.madeGood": ({ courseDegrees, speedKnots, setDegrees, driftKnots }) => {
    const north = speedKnots * cos(courseDegrees) + driftKnots * cos(setDegrees);
    const east = speedKnots * sin(courseDegrees) + driftKnots * sin(setDegrees);
    return { courseMadeGoodDegrees: direction(north, east), speedMadeGoodKnots: Math.hypot(north, east) };
  },

  "sailing.traverse": ({ courseDegrees, distanceMiles }) => {
    let north = 0;
    let east = 0;
    courseDegrees.forEach((course, i) => {
      north += distanceMiles[i] * cos(course);
      east += distanceMiles[i] * sin(course);
    });
    return {
      courseMadeGoodDegrees: direction(north, east),
      distanceMadeGoodMiles: Math.hypot(north, east),
      dLatMinutes: north,
      departureMiles: east,
    };
  },

  "sun.azimuth": ({ latitudeDegrees: lat, declinationDegrees: dec, hourAngleDegrees: hour }) => ({
    azimuthDegrees: direction(cos(lat) * sin(dec) - sin(lat) * cos(dec) * cos(hour), -cos(dec) * sin(hour)),
    altitudeDegrees: Math.asin(sin(lat) * sin(dec) + cos(lat) * cos(dec) * cos(hour)) / radians,
  }),

  "fix.horizon": ({ heightFeet }) => ({ horizonMiles: 1.17 * Math.sqrt(heightFeet) }),
};

function respond(request) {
  if (request.hello) {
    return { hello: 1, name: "javascript-adapter", version: "1", offers: Object.keys(operations).sort() };
  }
  try {
    return { case: request.case, answer: operations[request.operation](request.given) };
  } catch (error) {
    if (error instanceof Refused) return { case: request.case, refused: { kind: error.message } };
    if (error instanceof Declined) return { case: request.case, declined: error.message };
    return { case: request.case, broke: String(error) }; // shown with the case
  }
}

for await (const line of createInterface({ input: process.stdin })) {
  const request = JSON.parse(line);
  if (request.bye) break;
  process.stdout.write(JSON.stringify(respond(request)) + "\n");
}

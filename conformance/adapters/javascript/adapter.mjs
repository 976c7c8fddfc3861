// An adapter in JavaScript for a few operations, with its own arithmetic.
//
//     go run ./conformance/run -- node conformance/adapters/javascript/adapter.mjs
//
// Each operation takes what a case gives and returns the answer. Replace the bodies by
// calls of the library to be checked.

import { createInterface } from "node:readline";

const radians = Math.PI / 180;
const sin = (degrees) => Math.sin(degrees * radians);
const cos = (degrees) => Math.cos(degrees * radians);
const circle = (degrees) => ((degrees % 360) + 360) % 360;
const turn = (degrees) => circle(degrees + 180) - 180; // the shorter way round
const direction = (north, east) => circle(Math.atan2(east, north) / radians);

const operations = {
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
    return { case: request.case, broke: String(error) }; // shown with the case
  }
}

for await (const line of createInterface({ input: process.stdin })) {
  const request = JSON.parse(line);
  if (request.bye) break;
  process.stdout.write(JSON.stringify(respond(request)) + "\n");
}

// The field of a world magnetic model, from its published coefficients.
//
// The formulas are those of the report of the model: spherical harmonics with the Schmidt
// semi-normalised functions, at the geocentric latitude and distance of a point that is given
// on the ellipsoid WGS84.

import { readFileSync } from "node:fs";

const models = new Map();

// The epoch of a model, and its rows: n, m, g, h and their change in a year.
function read(name) {
  if (!models.has(name)) {
    const file = new URL(`../../../wmm/coefficients/${name}.COF`, import.meta.url);
    const [first, ...lines] = readFileSync(file, "utf8").trim().split("\n");
    const rows = lines.filter((line) => !line.startsWith("9999")).map((line) => line.trim().split(/\s+/).map(Number));
    models.set(name, { epoch: parseFloat(first), rows });
  }
  return models.get(name);
}

// The functions P of the colatitude, and their derivatives.
function legendre(degree, latitude) {
  const [c, s] = [Math.sin(latitude), Math.cos(latitude)]; // of the colatitude
  const square = () => Array.from({ length: degree + 1 }, () => new Array(degree + 1).fill(0));
  const [p, d] = [square(), square()];
  p[0][0] = 1;
  for (let n = 1; n <= degree; n++) {
    const k = n === 1 ? 1 : Math.sqrt(1 - 1 / (2 * n));
    p[n][n] = k * s * p[n - 1][n - 1];
    d[n][n] = k * (s * d[n - 1][n - 1] + c * p[n - 1][n - 1]);
    for (let m = 0; m < n; m++) {
      const before = m < n - 1 ? Math.sqrt((n - 1) ** 2 - m * m) : 0;
      const [q, dq] = before ? [p[n - 2][m], d[n - 2][m]] : [0, 0];
      const root = Math.sqrt(n * n - m * m);
      p[n][m] = ((2 * n - 1) * c * p[n - 1][m] - before * q) / root;
      d[n][m] = ((2 * n - 1) * (c * d[n - 1][m] - s * p[n - 1][m]) - before * dq) / root;
    }
  }
  return [p, d];
}

export function evaluate({ model, year, heightKilometres, latitudeDegrees, longitudeDegrees }) {
  const radians = Math.PI / 180;
  const [latitude, longitude] = [latitudeDegrees * radians, longitudeDegrees * radians];
  const flattening = 1 / 298.257223563;
  const squared = flattening * (2 - flattening);
  const normal = 6378.137 / Math.sqrt(1 - squared * Math.sin(latitude) ** 2);
  const across = (normal + heightKilometres) * Math.cos(latitude);
  const up = (normal * (1 - squared) + heightKilometres) * Math.sin(latitude);
  const distance = Math.hypot(across, up);
  const geocentric = Math.atan2(up, across);

  const { epoch, rows } = read(model);
  const [p, d] = legendre(Math.max(...rows.map(([n]) => n)), geocentric);
  let [north, y, down] = [0, 0, 0];
  for (const [n, m, g0, h0, gChange, hChange] of rows) {
    const g = g0 + (year - epoch) * gChange;
    const h = h0 + (year - epoch) * hChange;
    const power = (6371.2 / distance) ** (n + 2);
    const along = g * Math.cos(m * longitude) + h * Math.sin(m * longitude);
    const sideways = g * Math.sin(m * longitude) - h * Math.cos(m * longitude);
    north += power * along * d[n][m];
    y += (power * m * sideways * p[n][m]) / Math.cos(geocentric);
    down -= power * (n + 1) * along * p[n][m];
  }
  const tilt = geocentric - latitude;
  const x = north * Math.cos(tilt) - down * Math.sin(tilt);
  const z = north * Math.sin(tilt) + down * Math.cos(tilt);

  const horizontal = Math.hypot(x, y);
  return {
    declinationDegrees: Math.atan2(y, x) / radians,
    inclinationDegrees: Math.atan2(z, horizontal) / radians,
    hNanotesla: horizontal,
    fNanotesla: Math.hypot(horizontal, z),
    xNanotesla: x,
    yNanotesla: y,
    zNanotesla: z,
  };
}

"""The field of a world magnetic model, from its published coefficients.

The formulas are those of the report of the model: spherical harmonics with the
Schmidt semi-normalised functions, at the geocentric latitude and distance of a
point that is given on the ellipsoid WGS84.
"""

import functools
import math
import os

COEFFICIENTS = os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../../wmm/coefficients")


@functools.cache
def read(model):
    """Return the epoch and the rows n, m, g, h and their change in a year."""
    with open(os.path.join(COEFFICIENTS, model + ".COF")) as file:
        epoch = float(file.readline().split()[0])
        rows = [line.split() for line in file if not line.startswith("9999")]
    return epoch, [(int(n), int(m), *map(float, rest)) for n, m, *rest in rows]


def legendre(degree, latitude):
    """Return the functions P of the colatitude, and their derivatives."""
    c, s = math.sin(latitude), math.cos(latitude)  # of the colatitude
    p = [[0.0] * (degree + 1) for _ in range(degree + 1)]
    d = [[0.0] * (degree + 1) for _ in range(degree + 1)]
    p[0][0] = 1.0
    for n in range(1, degree + 1):
        k = 1.0 if n == 1 else math.sqrt(1 - 1 / (2 * n))
        p[n][n] = k * s * p[n - 1][n - 1]
        d[n][n] = k * (s * d[n - 1][n - 1] + c * p[n - 1][n - 1])
        for m in range(n):
            before = math.sqrt((n - 1) ** 2 - m * m) if m < n - 1 else 0.0
            q, dq = (p[n - 2][m], d[n - 2][m]) if before else (0.0, 0.0)
            root = math.sqrt(n * n - m * m)
            p[n][m] = ((2 * n - 1) * c * p[n - 1][m] - before * q) / root
            d[n][m] = ((2 * n - 1) * (c * d[n - 1][m] - s * p[n - 1][m]) - before * dq) / root
    return p, d


def evaluate(given):
    latitude, longitude = math.radians(given["latitudeDegrees"]), math.radians(given["longitudeDegrees"])
    height = given["heightKilometres"]
    flattening = 1 / 298.257223563
    squared = flattening * (2 - flattening)
    normal = 6378.137 / math.sqrt(1 - squared * math.sin(latitude) ** 2)
    across = (normal + height) * math.cos(latitude)
    up = (normal * (1 - squared) + height) * math.sin(latitude)
    distance, geocentric = math.hypot(across, up), math.atan2(up, across)

    epoch, rows = read(given["model"])
    since = given["year"] - epoch
    p, d = legendre(max(row[0] for row in rows), geocentric)
    x = y = z = 0.0
    for n, m, g, h, g_change, h_change in rows:
        g, h = g + since * g_change, h + since * h_change
        power = (6371.2 / distance) ** (n + 2)
        along = g * math.cos(m * longitude) + h * math.sin(m * longitude)
        x += power * along * d[n][m]
        y += power * m * (g * math.sin(m * longitude) - h * math.cos(m * longitude)) * p[n][m] / math.cos(geocentric)
        z -= power * (n + 1) * along * p[n][m]
    tilt = geocentric - latitude
    x, z = x * math.cos(tilt) - z * math.sin(tilt), x * math.sin(tilt) + z * math.cos(tilt)

    horizontal = math.hypot(x, y)
    return {
        "declinationDegrees": math.degrees(math.atan2(y, x)),
        "inclinationDegrees": math.degrees(math.atan2(z, horizontal)),
        "hNanotesla": horizontal,
        "fNanotesla": math.hypot(horizontal, z),
        "xNanotesla": x,
        "yNanotesla": y,
        "zNanotesla": z,
    }

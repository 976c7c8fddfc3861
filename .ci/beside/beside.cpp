// Times general-purpose libraries on the work that this module does too, for the table of
// speeds in DEVELOPERS.md: GeographicLib for the field, rhumb lines and geodesics, ERFA for
// the Sun. See run in this folder.
//
// The coefficients are read from this module's file and written in the library's own
// layout, so that both evaluate the same model.
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/MagneticCircle.hpp>
#include <GeographicLib/MagneticModel.hpp>
#include <GeographicLib/Rhumb.hpp>
#include <erfa.h>

#include <chrono>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

using namespace GeographicLib;

static const int degree = 12;

// The layout of a magnetic model: a text of what it is, and a binary file of its
// coefficients, order by order, the field first and then its yearly rate.
static void writeModel(const char* cof, const std::string& folder) {
  std::ifstream in(cof);
  std::string line;
  std::getline(in, line);
  std::vector<std::vector<double>> c[2], s[2];
  for (int k = 0; k < 2; ++k) {
    c[k].assign(degree + 1, std::vector<double>(degree + 1, 0));
    s[k] = c[k];
  }
  while (std::getline(in, line)) {
    std::istringstream fields(line);
    int n, m;
    double g, h, gRate, hRate;
    if (!(fields >> n >> m >> g >> h >> gRate >> hRate) || n > degree) break;
    c[0][n][m] = g; s[0][n][m] = h; c[1][n][m] = gRate; s[1][n][m] = hRate;
  }
  std::ofstream text(folder + "/beside.wmm");
  text << "WMMF-1\nName beside\nDescription as in this module\nReleaseDate 2024-11-13\n"
          "Radius 6371200\nNumModels 1\nEpoch 2025\nDeltaEpoch 1\nMinTime 2025\nMaxTime 2030\n"
          "MinHeight -1000\nMaxHeight 850000\nNormalization schmidt\nByteOrder little\nID BESIDE25\n";
  std::ofstream out(folder + "/beside.wmm.cof", std::ios::binary);
  out << "BESIDE25";
  for (int k = 0; k < 2; ++k) {
    const int32_t nm[2] = {degree, degree};
    out.write(reinterpret_cast<const char*>(nm), sizeof nm);
    for (int m = 0; m <= degree; ++m)
      for (int n = m; n <= degree; ++n) out.write(reinterpret_cast<const char*>(&c[k][n][m]), 8);
    for (int m = 1; m <= degree; ++m)
      for (int n = m; n <= degree; ++n) out.write(reinterpret_cast<const char*>(&s[k][n][m]), 8);
  }
}

static double sink;

template <class Work> static void time(const char* name, int count, Work work) {
  double best = 1e300;
  for (int round = 0; round < 7; ++round) {
    auto begin = std::chrono::steady_clock::now();
    for (int i = 0; i < count; ++i) work(i);
    std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - begin;
    best = std::min(best, took.count() / count);
  }
  std::printf("%-46s %9.1f ns\n", name, best);
}

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  writeModel(argv[1], argv[2]);
  const MagneticModel model("beside", argv[2]);
  std::mt19937_64 random(1);
  std::uniform_real_distribution<double> latitude(-90, 90), longitude(-180, 180);
  std::vector<double> lat(1024), lon(1024);
  for (int i = 0; i < 1024; ++i) { lat[i] = latitude(random); lon[i] = longitude(random); }
  double x, y, z, xt, yt, zt;
  std::printf("GeographicLib %s and ERFA; the least of seven rounds\n", GEOGRAPHICLIB_VERSION_STRING);
  model(2027.5, 47.1, -19.0333333333, 0, x, y, z);
  std::printf("field at 47.1N 19.0333333333W in 2027.5: X %.6f Y %.6f Z %.6f nT\n", y, x, z);
  time("field at random places", 100000, [&](int i) { model(2027.5, lat[i & 1023], lon[i & 1023], 0, x, y, z); sink += x; });
  time("field and rates at random places", 100000, [&](int i) { model(2027.5, lat[i & 1023], lon[i & 1023], 0, x, y, z, xt, yt, zt); sink += x + xt; });
  time("field, a world grid of 1 degree, a place", 181, [&](int i) {
    const MagneticCircle circle = model.Circle(2027.5, i - 90, 0);
    for (int k = 0; k < 360; ++k) { circle(k, x, y, z); sink += x; }
  });
  std::printf("  (that is of 360 places: divide by 360)\n");
  const Rhumb& rhumb = Rhumb::WGS84();
  double s12, azi12, area;
  time("rhumb line between random places", 100000, [&](int i) { rhumb.Inverse(lat[i & 1023], lon[i & 1023], lat[(i + 1) & 1023], lon[(i + 1) & 1023], s12, azi12); sink += s12; });
  double lat2, lon2;
  time("along a rhumb line", 100000, [&](int i) { rhumb.Direct(lat[i & 1023] / 2, lon[i & 1023], lon[(i + 1) & 1023], 1e5, lat2, lon2); sink += lat2; });
  (void)area;
  double pvh[2][3], pvb[2][3];
  time("the earth's place by the Sun, vectors alone", 20000, [&](int i) { sink += eraEpv00(2461000.5, i * 0.25, pvh, pvb) + pvh[0][0]; });
  return sink == 0.12345; // so that the work is not left out
}

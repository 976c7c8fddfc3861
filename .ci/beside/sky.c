/* Places of the Sun and of the stars by ERFA, at random places and times, for the comparison
 * in sky.go. It prints rows: time, body, latitude, longitude, azimuth, altitude, declination and
 * Greenwich hour angle, in degrees. To the standard error it prints how long a star takes.
 *
 *     sky catalogue.csv count seed
 */
#include <erfa.h>
#include <erfam.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const double degree = M_PI / 180;

static uint64_t state;

/* A number from 0 to 1, by splitmix64. */
static double uniform(void) {
  uint64_t z = (state += 0x9E3779B97F4A7C15u);
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
  return (double)((z ^ (z >> 31)) >> 11) / 9007199254740992.0;
}

struct star { char name[40]; double ra, dec, east, north, magnitude; };

/* The star's place of J2000.0, of which ERFA starts. */
static void moved(const struct star *s, double *rc, double *dc, double *pr, double *pd) {
  const double milliseconds = degree / 3600000;
  double px, rv;
  eraPmsafe(s->ra * degree, s->dec * degree, s->east * milliseconds / cos(s->dec * degree), s->north * milliseconds,
            0, 0, 2400000.5, 48348.5625, 2451545.0, 0, rc, dc, pr, pd, &px, &rv);
}

/* The Sun's apparent place as in deviation/sky/testdata/README.md. */
static void sun(double utc1, double utc2, double *dec, double *gha) {
  double tt1 = utc1, tt2 = utc2 + 69.184 / 86400, light = 0, pvh[2][3], pvb[2][3], p[3], earth[3], speed[3], there[2][3], ignored[2][3];
  eraEpv00(tt1, tt2, pvh, pvb);
  for (int i = 0; i < 3; ++i) { earth[i] = pvb[0][i]; speed[i] = pvb[1][i] * ERFA_AULT / ERFA_DAYSEC; }
  double distance = 1;
  for (int round = 0; round < 3; ++round) {
    light = distance * ERFA_AULT / ERFA_DAYSEC;
    eraEpv00(tt1, tt2 - light, there, ignored);
    for (int i = 0; i < 3; ++i) p[i] = ignored[0][i] - there[0][i] - earth[i]; /* the Sun from the barycentre, less the Earth */
    distance = eraPm(p);
  }
  double u[3], apparent[3], m[3][3], date[3], ra;
  for (int i = 0; i < 3; ++i) u[i] = p[i] / distance;
  eraAb(u, speed, distance, sqrt(1 - eraPdp(speed, speed)), apparent);
  eraPnm06a(tt1, tt2, m);
  eraRxp(m, apparent, date);
  eraC2s(date, &ra, dec);
  *gha = eraAnp(eraGst06a(utc1, utc2, tt1, tt2) - ra);
}

int main(int argc, char **argv) {
  if (argc != 4) return 2;
  FILE *in = fopen(argv[1], "r");
  if (!in) { perror(argv[1]); return 1; }
  struct star stars[100];
  int n = 0;
  char line[400];
  while (n < 100 && fgets(line, sizeof line, in))
    if (sscanf(line, "%39[^,],%lf,%lf,%lf,%lf,%lf", stars[n].name, &stars[n].ra, &stars[n].dec, &stars[n].east, &stars[n].north, &stars[n].magnitude) == 6) ++n;
  fclose(in);
  int count = atoi(argv[2]);
  state = strtoull(argv[3], NULL, 10);
  double sink = 0;
  for (int k = 0; k < count; ++k) {
    double latitude = asin(2 * uniform() - 1), longitude = (2 * uniform() - 1) * M_PI;
    int year = 1950 + (int)(151 * uniform()), month = 1 + (int)(12 * uniform()), day = 1 + (int)(28 * uniform());
    int hour = (int)(24 * uniform()), minute = (int)(60 * uniform()), second = (int)(60 * uniform());
    double utc1, utc2, azimuth, altitude, dec, gha;
    eraDtf2d("UTC", year, month, day, hour, minute, second, &utc1, &utc2);
    const char *name = "the Sun";
    int i = (int)((n + 10) * uniform()); /* the Sun in one row of seven */
    if (i < n) {
      double rc, dc, pr, pd, zenith, ha, ri, di, eo, hob, dob, rob;
      name = stars[i].name;
      moved(&stars[i], &rc, &dc, &pr, &pd);
      eraAtco13(rc, dc, pr, pd, 0, 0, utc1, utc2, 0, longitude, latitude, 0, 0, 0, 0, 0, 0, 0.55, &azimuth, &zenith, &hob, &dob, &rob, &eo);
      altitude = M_PI / 2 - zenith;
      double tai1, tai2, tt1, tt2;
      eraUtctai(utc1, utc2, &tai1, &tai2);
      eraTaitt(tai1, tai2, &tt1, &tt2);
      eraAtci13(rc, dc, pr, pd, 0, 0, tt1, tt2, &ri, &di, &eo);
      dec = di;
      gha = eraAnp(eraEra00(utc1, utc2) - ri);
      ha = gha;
      (void)ha;
    } else {
      sun(utc1, utc2, &dec, &gha);
      double ha = gha + longitude;
      eraHd2ae(ha, dec, latitude, &azimuth, &altitude);
    }
    printf("%04d-%02d-%02dT%02d:%02d:%02dZ,%s,%.10f,%.10f,%.9f,%.9f,%.9f,%.9f\n", year, month, day, hour, minute, second, name,
           latitude / degree, longitude / degree, azimuth / degree, altitude / degree, dec / degree, gha / degree);
  }
  double best = 1e300;
  for (int round = 0; round < 7; ++round) {
    clock_t begin = clock();
    for (int k = 0; k < 2000; ++k) {
      double rc, dc, pr, pd, azimuth, zenith, hob, dob, rob, eo;
      moved(&stars[k % n], &rc, &dc, &pr, &pd);
      eraAtco13(rc, dc, pr, pd, 0, 0, 2461000.5, k * 0.01, 0, 0.3, 0.8, 0, 0, 0, 0, 0, 0, 0.55, &azimuth, &zenith, &hob, &dob, &rob, &eo);
      sink += azimuth;
    }
    best = fmin(best, (double)(clock() - begin) / CLOCKS_PER_SEC / 2000);
  }
  fprintf(stderr, "ERFA: a star's azimuth takes %.0f ns\n", best * 1e9);
  return sink == 0.12345; /* so that the work is not left out */
}

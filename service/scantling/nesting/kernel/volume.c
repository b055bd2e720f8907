/* The pair of dual feasible functions (bounds.py) under which the pieces fill most sheets. */
#include "nest.h"

#if defined(_WIN32)
#define PUBLIC __declspec(dllexport)
#else
#define PUBLIC __attribute__((visibility("default")))
#endif

/* `f` holds rows of 2n sizes (the n pieces as they lie, then the n turned), `g` likewise; `f_cap` and `g_cap` what a
 * sheet measures under each. A piece counts with the smaller of its two volumes. Writes the row of f, the row of g
 * and returns the most whole sheets needed; pairs are compared by their exact volume in sheets. */
PUBLIC i64 nest_best_pair(i32 f_rows, i32 g_rows, i32 n, const i64 *f, const i64 *f_cap, const i64 *g, const i64 *g_cap,
                          const i64 *count, i32 *best) {
    double most = -1.0;
    i64 sheets = 0;
    best[0] = best[1] = 0;
    for (i32 i = 0; i < f_rows; i++) {
        const i64 *lying = f + (i64)i * 2 * n;
        for (i32 j = 0; j < g_rows; j++) {
            const i64 *across = g + (i64)j * 2 * n;
            i64 volume = 0;
            for (i32 k = 0; k < n; k++) {
                i64 a = lying[k] * across[k], b = lying[n + k] * across[n + k];
                volume += (a < b ? a : b) * count[k];
            }
            i64 capacity = f_cap[i] * g_cap[j];
            double share = (double)volume / (double)capacity;
            if (share <= most) continue;
            most = share;
            best[0] = i;
            best[1] = j;
            i64 needed = (volume + capacity - 1) / capacity;
            if (needed > sheets) sheets = needed;
        }
    }
    return sheets;
}

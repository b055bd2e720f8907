/* What the service calls: make a search from plain arrays, let it work, read its best answer. */
#include "nest.h"

#include <stdlib.h>
#include <string.h>

#if defined(_WIN32)
#define PUBLIC __declspec(dllexport)
#else
#define PUBLIC __attribute__((visibility("default")))
#endif

static void *copy_of(Search *s, const void *from, size_t bytes) {
    void *to = calloc(1, bytes ? bytes : 1);
    if (!to) s->failed = 1;
    else if (from) memcpy(to, from, bytes);
    return to;
}

static void set_scale(Problem *p, const i64 *value) {
    i64 largest = 1;
    p->least[0] = p->least[1] = INT32_MAX;
    for (i32 t = 0; t < p->stocks; t++) {
        i64 area = (i64)p->stock_size[2 * t] * p->stock_size[2 * t + 1];
        if (area > largest) largest = area;
    }
    p->shift = 0;
    while (largest >> p->shift >> VALUE_BITS) p->shift++;
    for (i32 k = 0; k < p->kinds; k++) {
        uint8_t any = 0;
        for (i32 t = 0; t < p->stocks; t++) any |= p->allow[k * p->stocks + t];
        i64 area = INT64_MAX;
        for (int shape = 0; shape < SHAPES; shape++) {
            if (!(any >> shape & 1)) continue;
            const i32 *size = &p->shape[(k * SHAPES + shape) * 2];
            for (int axis = 0; axis < 2; axis++)
                if (size[axis] < p->least[axis]) p->least[axis] = size[axis];
            if ((i64)size[0] * size[1] < area) area = (i64)size[0] * size[1];
        }
        p->area[k] = value ? value[k] : area == INT64_MAX ? 1 : (area >> p->shift) + 1;
    }
}

PUBLIC void nest_free(Search *s) {
    if (!s) return;
    void *all[] = {s->p.shape, s->p.allow, s->p.demand, s->p.area, s->p.stock_size, s->p.stock_cost,
                   s->p.stock_limit, s->node, s->free_list, s->sheet, s->pool, s->used, s->undo, s->stamp,
                   s->fresh, s->freed, s->pool_before, s->used_before, s->sheet_before, s->open_node, s->order,
                   s->key, s->stack, s->best};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) free(all[i]);
    free(s);
}

static void reserve(Search *s, i32 sheets) {
    size_t pieces = 0;
    for (i32 k = 0; k < s->p.kinds; k++) pieces += (size_t)s->p.demand[k];
    size_t nodes = 2 * (4 * pieces + (size_t)sheets) + 64;
    size_t kinds = (size_t)s->p.kinds, stocks = (size_t)s->p.stocks;
    s->capacity = (i32)nodes;
    s->sheet_slots = sheets;
    s->node = copy_of(s, NULL, nodes * sizeof(Node));
    s->undo = copy_of(s, NULL, nodes * sizeof(Undo));
    s->free_list = copy_of(s, NULL, nodes * sizeof(i32));
    s->stamp = copy_of(s, NULL, nodes * sizeof(i32));
    s->fresh = copy_of(s, NULL, nodes * sizeof(i32));
    s->freed = copy_of(s, NULL, nodes * sizeof(i32));
    s->open_node = copy_of(s, NULL, nodes * sizeof(i32));
    s->stack = copy_of(s, NULL, nodes * sizeof(i32));
    s->sheet = copy_of(s, NULL, (size_t)sheets * sizeof(Sheet));
    s->sheet_before = copy_of(s, NULL, (size_t)sheets * sizeof(Sheet));
    s->pool = copy_of(s, NULL, kinds * sizeof(i32));
    s->pool_before = copy_of(s, NULL, kinds * sizeof(i32));
    s->used = copy_of(s, NULL, stocks * sizeof(i32));
    s->used_before = copy_of(s, NULL, stocks * sizeof(i32));
    s->order = copy_of(s, NULL, kinds * sizeof(i32));
    s->key = copy_of(s, NULL, kinds * sizeof(i64));
    s->p.area = copy_of(s, NULL, kinds * sizeof(i64));
}

/* kinds x SHAPES x 2 sizes, kinds x stocks permitted shapes (bits), demand of each kind; stocks x 2 sizes, cost and
 * limit (-1: none) of each stock. `sheets` is the most sheets ever open at once. `value` (or NULL: area) is what each
 * kind is worth when not all can be placed. NULL when memory runs out. */
PUBLIC Search *nest_new(i32 kinds, i32 stocks, const i32 *shape, const uint8_t *allow, const i32 *demand,
                        const i32 *stock_size, const i64 *stock_cost, const i32 *stock_limit, i32 sheets, i32 stages,
                        i32 first_axis, i64 target, u64 seed, const i64 *value) {
    Search *s = calloc(1, sizeof(Search));
    if (!s) return NULL;
    size_t k = (size_t)kinds, t = (size_t)stocks;
    s->p.kinds = kinds;
    s->p.stocks = stocks;
    s->p.shape = copy_of(s, shape, k * SHAPES * 2 * sizeof(i32));
    s->p.allow = copy_of(s, allow, k * t);
    s->p.demand = copy_of(s, demand, k * sizeof(i32));
    s->p.stock_size = copy_of(s, stock_size, t * 2 * sizeof(i32));
    s->p.stock_cost = copy_of(s, stock_cost, t * sizeof(i64));
    s->p.stock_limit = copy_of(s, stock_limit, t * sizeof(i32));
    s->p.stages = stages;
    s->p.first_axis = first_axis;
    s->p.target = target;
    s->seed = seed * UINT64_C(0x9E3779B97F4A7C15) ^ UINT64_C(0xD1B54A32D192ED03);
    if (!s->seed) s->seed = 1;
    if (!s->failed) reserve(s, sheets);
    if (s->failed) {
        nest_free(s);
        return NULL;
    }
    s->p.valued = value != NULL;
    set_scale(&s->p, value);
    return s;
}

/* Work until the count of work is `limit`. 1: the target is met; 0: not; -1: memory ran out. */
PUBLIC i32 nest_run(Search *s, i64 limit) { return run_search(s, limit); }

/* Set a higher cost that nobody can beat. */
PUBLIC void nest_aim(Search *s, i64 target) { s->p.target = target; }

PUBLIC i64 nest_work(const Search *s) { return s->work; }
PUBLIC i64 nest_cost(const Search *s) { return s->best_cost; }
PUBLIC i64 nest_missing(const Search *s) { return s->best_missing; }

/* The best solution as numbers (store.c); returns its length, and copies it where there is room. */
PUBLIC i32 nest_best(const Search *s, i32 *into, i32 room) {
    if (into && room >= s->best_length) memcpy(into, s->best, sizeof(i32) * (size_t)s->best_length);
    return s->best_length;
}

/* Move pieces of the best solution so that what is left over is worth keeping: at least `shorter` x `longer`. */
PUBLIC i32 nest_polish(Search *s, i64 limit, i32 shorter, i32 longer) {
    s->worth[0] = shorter;
    s->worth[1] = longer;
    polish(s, limit);
    return s->failed ? -1 : 0;
}

/* Hand over a solution in the same numbers. 1: it was better than the best and is now the best. */
PUBLIC i32 nest_offer(Search *s, const i32 *numbers, i32 length) {
    int taken = take_offer(s, numbers, length);
    descend(s);
    return taken;
}

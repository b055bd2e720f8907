/* The nesting kernel: rectangles in sheets by through-cuts. Plain C99, integers only, no global state.
 *
 * Every length already contains one kerf (a piece is piece + kerf, a sheet is usable size + kerf), so neighbours
 * simply add up. The cuts of a sheet form a tree: a branch is split along its axis into children side by side, and
 * whatever is not given to a child is its `rest`. Children have no order, so all free room of a branch is one piece.
 */
#ifndef SCANTLING_NEST_H
#define SCANTLING_NEST_H

#include <stdint.h>

typedef int32_t i32;
typedef int64_t i64;
typedef uint64_t u64;

enum { NONE = -1, SHAPES = 4, HISTORY = 50, VALUE_BITS = 20 };

typedef struct {
    i32 size[2]; /* extent along x and y */
    i32 rest;    /* uncut extent along the axis */
    i32 parent, first, next, prev;
    i32 kind; /* which kind of piece; NONE for a branch */
    i32 sheet;
    int8_t axis, shape, depth, live; /* live: 0 free, 1 in use, 2 freed but not yet committed */
} Node;

typedef struct {
    i32 stock; /* NONE: slot unused */
    i32 root;
    i32 mark; /* the step that last took something out of it */
} Sheet;

typedef struct {
    i32 kinds, stocks;
    i32 *shape;     /* kinds x SHAPES x 2 */
    uint8_t *allow; /* kinds x stocks: bit s set where shape s may lie on that stock */
    i32 *demand;    /* kinds */
    i64 *area;      /* kinds: what leaving one out costs: its value where given, else its scaled area */
    i32 valued;     /* 1: values were given */
    i32 *stock_size; /* stocks x 2 */
    i64 *stock_cost;
    i32 *stock_limit; /* NONE: as many as needed */
    i32 stages;       /* deepest turn allowed */
    i32 first_axis;   /* 0: split x first, 1: split y first, 2: either */
    i32 least[2];     /* smallest extent of any shape along x and y: narrower room is worth nothing */
    i32 shift;        /* scaled area = area >> shift */
    i64 target;       /* a cost nobody can beat */
} Problem;

typedef struct {
    i32 index;
    Node before;
} Undo;

typedef struct {
    Problem p;
    u64 seed;
    i64 work, limit;
    /* the current solution */
    Node *node;
    i32 capacity, high, free_count;
    i32 *free_list;
    Sheet *sheet;
    i32 sheet_slots, sheets_open;
    i32 *pool, *used; /* unplaced count of each kind; sheets used of each stock */
    i64 cost, value, missing; /* missing: scaled area of what is unplaced */
    /* undo of one step */
    Undo *undo;
    i32 undo_count, step;
    i32 *stamp, *fresh, *freed;
    i32 fresh_count, freed_count;
    i32 *pool_before, *used_before;
    Sheet *sheet_before;
    i32 sheets_open_before;
    i64 cost_before, value_before, missing_before;
    /* scratch */
    i32 *open_node, open_count;
    i32 *order;
    i64 *key;
    i32 *stack;
    /* late acceptance */
    i64 history[HISTORY];
    i64 now, least_key;
    i32 tick, stall;
    i32 started, sweep;
    /* the best complete solution, and how much it leaves out */
    i64 best_cost, best_missing, best_value;
    i32 *best, best_length, best_capacity;
    i32 polish;          /* 1: the cost stands; make what is left over worth keeping */
    i32 worth[2];        /* the sides of what is worth keeping, the shorter first */
    i32 failed; /* 1: memory ran out */
} Search;

/* tree.c */
i64 room_value(const Search *s, i64 a, i64 b, int axis);
i32 open_sheet(Search *s, i32 stock, int axis);
i32 add_child(Search *s, i32 branch, i32 extent, i32 kind, int shape);
void close_sheet(Search *s, i32 sheet);
void remove_node(Search *s, i32 node);
i32 place(Search *s, i32 branch, int option, i32 kind, int shape);
void begin_step(Search *s);
void keep_step(Search *s);
void undo_step(Search *s);
void clear_solution(Search *s);

/* recreate.c */
void recreate(Search *s, int rule, i64 cost_limit, u64 blink, int local);

/* store.c */
void store_best(Search *s);
void load_best(Search *s);
int better_than_best(const Search *s);
int take_offer(Search *s, const i32 *numbers, i32 length);

/* search.c */
int run_search(Search *s, i64 limit);
void polish(Search *s, i64 limit);
void descend(Search *s);

/* a 64-bit xorshift generator (Marsaglia 2003) with a multiplied output */
static inline u64 draw(Search *s) {
    u64 x = s->seed;
    x ^= x >> 12;
    x ^= x << 25;
    x ^= x >> 27;
    s->seed = x;
    return x * UINT64_C(2685821657736338717);
}

static inline i32 draw_below(Search *s, i32 n) { return (i32)(((draw(s) >> 32) * (u64)n) >> 32); }

#endif

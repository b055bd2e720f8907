/* Putting pieces back: each where it spoils least free room, in a new sheet when none has room. */
#include "nest.h"

typedef struct {
    i64 loss;
    i32 branch;
    int option, shape;
} Spot;

static int is_open(const Search *s, const Node *n) {
    return n->live == 1 && n->kind == NONE && n->depth < s->p.stages && n->rest >= s->p.least[n->axis] &&
           n->size[1 - n->axis] >= s->p.least[1 - n->axis];
}

static void collect_sheet(Search *s, i32 slot) {
    i32 count = 0, next = 0;
    s->stack[count++] = s->sheet[slot].root;
    while (next < count) {
        i32 i = s->stack[next++];
        if (is_open(s, &s->node[i])) s->open_node[s->open_count++] = i;
        for (i32 c = s->node[i].first; c != NONE; c = s->node[c].next) s->stack[count++] = c;
    }
    s->work += count >> 1;
}

/* Collect the branches whose rest can still hold the smallest piece: of all sheets, or of those just ruined. */
static void collect_open(Search *s, int local) {
    s->open_count = 0;
    if (!local) {
        for (i32 i = 0; i < s->high; i++)
            if (is_open(s, &s->node[i])) s->open_node[s->open_count++] = i;
        s->work += s->high >> 3;
        return;
    }
    for (i32 slot = 0; slot < s->sheet_slots; slot++)
        if (s->sheet[slot].stock != NONE && s->sheet[slot].mark == s->step) collect_sheet(s, slot);
}

/* True where a piece would leave nothing for the first cut to do in the direction asked for. */
static int cuts_the_other_way(const Search *s, const Node *n, i64 a, i64 b) {
    return s->p.first_axis < 2 && n->parent == NONE && a == n->size[n->axis] && b < n->size[1 - n->axis];
}

/* Compare the ways a piece of this shape goes into one branch and keep the best. */
static void weigh(const Search *s, i32 branch, const i32 *size, int shape, Spot *best) {
    const Node *n = &s->node[branch];
    int axis = n->axis;
    i64 a = size[axis], b = size[1 - axis], rest = n->rest, cross = n->size[1 - axis];
    if (a > rest || b > cross) return;
    if (cuts_the_other_way(s, n, a, b)) return;
    i64 before = room_value(s, rest, cross, axis);
    i64 loss = before - room_value(s, rest - a, cross, axis);
    int option = 0;
    if (b < cross) {
        loss -= room_value(s, cross - b, a, 1 - axis);
        if (a < rest && n->depth + 2 <= s->p.stages && !cuts_the_other_way(s, n, rest, b)) {
            i64 other = before - room_value(s, rest - a, b, axis) - room_value(s, cross - b, rest, 1 - axis);
            if (other < loss) {
                loss = other;
                option = 1;
            }
        }
    }
    if (best->branch == NONE || loss < best->loss) {
        best->loss = loss;
        best->branch = branch;
        best->option = option;
        best->shape = shape;
    }
}

/* The best place for a piece among the open branches, each passed over by chance `blink` of 2^32. */
static Spot find_spot(Search *s, i32 kind, u64 blink) {
    Spot best = {0, NONE, 0, 0};
    for (i32 i = 0; i < s->open_count; i++) {
        i32 branch = s->open_node[i];
        Node *n = &s->node[branch];
        uint8_t allow = s->p.allow[kind * s->p.stocks + s->sheet[n->sheet].stock];
        for (int shape = 0; allow; shape++, allow >>= 1) {
            if (!(allow & 1)) continue;
            const i32 *size = &s->p.shape[(kind * SHAPES + shape) * 2];
            if (size[n->axis] > n->rest || size[1 - n->axis] > n->size[1 - n->axis]) continue;
            if (blink && (draw(s) >> 32) < blink) continue;
            weigh(s, branch, size, shape, &best);
        }
    }
    s->work += s->open_count;
    return best;
}

/* Keep the list of open branches true after a piece was placed. */
static void reopen(Search *s, i32 leaf, i32 branch) {
    for (i32 n = s->node[leaf].parent; n != branch && n != NONE; n = s->node[n].parent)
        if (is_open(s, &s->node[n])) s->open_node[s->open_count++] = n;
    if (s->node[branch].rest >= s->p.least[s->node[branch].axis]) return;
    for (i32 i = 0; i < s->open_count; i++) {
        if (s->open_node[i] != branch) continue;
        s->open_node[i] = s->open_node[--s->open_count];
        return;
    }
}

static int fits_empty(const Search *s, i32 kind, i32 stock, int axis) {
    uint8_t allow = s->p.allow[kind * s->p.stocks + stock];
    const i32 *sheet = &s->p.stock_size[2 * stock];
    for (int shape = 0; allow; shape++, allow >>= 1) {
        if (!(allow & 1)) continue;
        const i32 *size = &s->p.shape[(kind * SHAPES + shape) * 2];
        if (size[0] > sheet[0] || size[1] > sheet[1]) continue;
        if (s->p.first_axis == 2 || size[axis] < sheet[axis] || size[1 - axis] == sheet[1 - axis]) return 1;
    }
    return 0;
}

/* Open a sheet for a piece: among those that hold it and can be paid for, one drawn with favour for a low price by
 * area. Returns 0 where there is none. */
static int open_for(Search *s, i32 kind, i64 cost_limit, int greedy) {
    i32 chosen = NONE;
    int chosen_axis = 0;
    i64 best = 0;
    for (i32 t = 0; t < s->p.stocks; t++) {
        if (s->p.stock_limit[t] != NONE && s->used[t] >= s->p.stock_limit[t]) continue;
        if (s->cost + s->p.stock_cost[t] > cost_limit || s->sheets_open >= s->sheet_slots) continue;
        int axis = s->p.first_axis < 2 ? s->p.first_axis : (int)(draw(s) >> 63);
        if (!fits_empty(s, kind, t, axis)) {
            if (s->p.first_axis < 2 || !fits_empty(s, kind, t, 1 - axis)) continue;
            axis = 1 - axis;
        }
        i64 area = ((i64)s->p.stock_size[2 * t] * s->p.stock_size[2 * t + 1]) >> s->p.shift;
        i64 rate = (s->p.stock_cost[t] << 10) / (area ? area : 1);
        if (!greedy) rate = rate * (512 + draw_below(s, 1024)) >> 10;
        if (chosen == NONE || rate < best) {
            chosen = t;
            chosen_axis = axis;
            best = rate;
        }
    }
    if (chosen == NONE) return 0;
    i32 slot = open_sheet(s, chosen, chosen_axis);
    s->open_node[s->open_count++] = s->sheet[slot].root;
    return 1;
}

/* Sort keys: large first by area, by longer side, by shorter side, by sum of sides, by extent along x or y, by value
 * for its area, or any order. */
static i64 sort_key(Search *s, i32 kind, int rule) {
    const i32 *size = &s->p.shape[kind * SHAPES * 2];
    i64 a = size[0], b = size[1];
    switch (rule) {
        case 0: return a * b;
        case 1: return a > b ? a : b;
        case 2: return a < b ? a : b;
        case 3: return a + b;
        case 4: return a;
        case 5: return b;
        case 10: return (s->p.area[kind] << VALUE_BITS) / ((a * b >> s->p.shift) + 1);
        default: return (i64)(draw(s) >> 2);
    }
}

static i32 sort_pool(Search *s, int rule) {
    i32 count = 0;
    for (i32 k = 0; k < s->p.kinds; k++) {
        if (!s->pool[k]) continue;
        i64 key = sort_key(s, k, rule);
        i32 i = count++;
        while (i > 0 && s->key[i - 1] < key) {
            s->key[i] = s->key[i - 1];
            s->order[i] = s->order[i - 1];
            i--;
        }
        s->key[i] = key;
        s->order[i] = k;
    }
    s->work += count;
    return count;
}

/* Put the pool's pieces back in the order of `rule`, spending no more than `cost_limit` in all. What finds no room
 * stays in the pool. `local`: only sheets that something was just taken from, and new ones. */
void recreate(Search *s, int rule, i64 cost_limit, u64 blink, int local) {
    i32 count = sort_pool(s, rule);
    collect_open(s, local);
    for (i32 i = 0; i < count; i++) {
        i32 kind = s->order[i];
        while (s->pool[kind]) {
            Spot spot = find_spot(s, kind, blink);
            if (spot.branch == NONE) {
                if (!open_for(s, kind, cost_limit, blink == 0)) break;
                spot = find_spot(s, kind, 0);
                if (spot.branch == NONE) break;
            }
            reopen(s, place(s, spot.branch, spot.option, kind, spot.shape), spot.branch);
        }
    }
}

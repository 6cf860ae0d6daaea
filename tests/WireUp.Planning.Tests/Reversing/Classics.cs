using WireUp.Layouts;

namespace WireUp.Planning.Tests.Reversing;

/// <summary>
/// The classical track plans of reversing, in the order in which the trade tells them. Trains are 1 m long; plain
/// oval sides are 5 m, loops 5 m, so that every run has room unless a test takes it away.
/// </summary>
internal static class Classics
{
    public static Layout PlainOval() => Track.Of("north 5; south 5", "north > south > north.a");

    public static Layout Balloon(double loop = 5) =>
        Track.Of($"spur 2; loop {loop}; T1 right", "T1.points > spur.b", "T1.through > loop > T1.diverging");

    /// <summary>Three turnouts, main line along the bottom (T1–T2), tail at the top beyond T3.</summary>
    public static Layout Wye(double side = 5, double tail = 2, double main = 5) => Track.Of(
        $"west 3; east 3; main {main}; left {side}; right {side}; tail {tail}; T1 left; T2 right; T3 wye",
        "west > T1.points", "T1.through > main > T2.through", "east > T2.points",
        "T1.diverging > left > T3.right", "T2.diverging > right > T3.left", "T3.points > tail");

    public static Layout OvalWithSiding() => Track.Of(
        "oval 10; main 3; siding 3; T1 right; T2 left",
        "T1.points > oval > T2.points", "T1.through > main > T2.through", "T1.diverging > siding > T2.diverging");

    /// <summary>A train on the ring leaves by T1 and comes back on the ring at T2 the other way round.</summary>
    public static Layout OvalWithCutOff(double cutoff = 3) => Track.Of(
        $"north 5; south 5; cutoff {cutoff}; T1 right; T2 right",
        "T1.through > north > T2.points", "T2.through > south > T1.points", "T1.diverging > cutoff > T2.diverging");

    /// <summary>Out by the up line, round the east loop, back by the down line, round the west loop; no cross connection.</summary>
    public static Layout FoldedOval() => Track.Of("up 5; east 5; down 5; west 5", "up > east > down > west > up.a");

    /// <summary>The folded oval with one crossover in its waist.</summary>
    public static Layout FoldedOvalWithCrossover(double cross = 0.4) => Track.Of(
        $"upwest 5; upeast 5; east 5; downeast 5; downwest 5; west 5; cross {cross}; T1 right; T2 right",
        "upwest > T1.points", "T1.through > upeast > east > downeast > T2.points", "T2.through > downwest > west > upwest.a",
        "T1.diverging > cross > T2.diverging");

    /// <summary>
    /// The folded oval with two crossovers in its waist, one for each direction of change: on the up line T1 then T3, on the down line
    /// T4 then T2, from west to east.
    /// </summary>
    public static Layout FoldedOvalWithTwoCrossovers() => Track.Of(
        "upmid 5; downmid 5; east 5; west 5; c1 0.4; c2 0.4; T1 right; T2 right; T3 left; T4 left",
        "T1.points > west > T4.points", "T1.through > upmid > T3.through", "T4.through > downmid > T2.through",
        "T3.points > east > T2.points", "T1.diverging > c1 > T2.diverging", "T4.diverging > c2 > T3.diverging");

    public static Layout ConcentricOvals() => Track.Of(
        "outer 10; inner 8; cross 0.4; T1 left; T2 left",
        "T1.through > outer > T1.points", "T2.points > inner > T2.through", "T1.diverging > cross > T2.diverging");

    public static Layout FigureEight() => Track.Of(
        "north 5; south 5; X crossing", "X.a2 > north > X.b1", "X.b2 > south > X.a1");

    /// <summary>A ring twice round, with a link between the two turns; forward in running sense or turning back.</summary>
    public static Layout TwiceRound(bool forward) => Track.Of(
        "first 5; second 5; third 5; link 3; T1 right; T2 right",
        "T1.through > first > T2." + (forward ? "through" : "points"),
        "T2." + (forward ? "points" : "through") + " > second > third > T1.points",
        "T1.diverging > link > T2.diverging");

    public static Layout LoopToLoop(double loop = 5, double main = 5) => Track.Of(
        $"westloop {loop}; main {main}; eastloop {loop}; T1 wye; T2 wye",
        "T1.left > westloop > T1.right", "T1.points > main > T2.points", "T2.left > eastloop > T2.right");

    /// <summary>A loop with three storage roads between two ladders.</summary>
    public static Layout LoopWithStorage(double spur = 3) => Track.Of(
        $"spur {spur}; in 1; out 1; r1 3; r2 3; r3 3; T1 wye; A1 right; A2 right; B1 left; B2 left",
        "T1.points > spur", "T1.left > in > A1.points", "T1.right > out > B1.points",
        "A1.through > r1 > B1.through", "A1.diverging > A2.points", "B1.diverging > B2.points",
        "A2.through > r2 > B2.through", "A2.diverging > r3 > B2.diverging");

    /// <summary>Two cut-offs, one for each running sense, over a ring of four arcs.</summary>
    public static Layout OvalWithTwoCutOffs(double cutoff = 3, double arc = 5) => Track.Of(
        $"n {arc}; e {arc}; s {arc}; w {arc}; c1 {cutoff}; c2 {cutoff}; T1 right; T2 right; T3 left; T4 left",
        "T1.through > n > T3.points", "T3.through > e > T2.points", "T2.through > s > T4.points", "T4.through > w > T1.points",
        "T1.diverging > c1 > T2.diverging", "T3.diverging > c2 > T4.diverging");

    /// <summary>A wye whose tail ends in a balloon loop.</summary>
    public static Layout WyeWithBalloonTail() => Track.Of(
        "west 3; east 3; main 5; left 5; right 5; tail 4; loop 5; T1 left; T2 right; T3 wye; T4 right",
        "west > T1.points", "T1.through > main > T2.through", "east > T2.points",
        "T1.diverging > left > T3.right", "T2.diverging > right > T3.left",
        "T3.points > tail > T4.points", "T4.through > loop > T4.diverging");

    /// <summary>A cut-off that forks: two ways back onto the ring, both turning the train, over one common stem.</summary>
    public static Layout ForkedCutOff() => Track.Of(
        "north 5; mid 5; south 5; stem 3; a 0.5; b 0.5; T1 right; T2 right; T3 right; F right",
        "T1.through > north > T2.points", "T2.through > mid > T3.points", "T3.through > south > T1.points",
        "T1.diverging > stem > F.points", "F.through > a > T2.diverging", "F.diverging > b > T3.diverging");

    /// <summary>A figure of eight lying down, its loops to the left and right of the crossing, with a double slip in place of the crossing.</summary>
    public static Layout FigureEightWithSlip(double lobe = 5) => Track.Of(
        $"east {lobe}; west {lobe}; X slip", "X.a2 > east > X.b2", "X.b1 > west > X.a1");

    /// <summary>The same over a crossing with live frogs.</summary>
    public static Layout FigureEightOverLiveFrogs(bool opposite) => Track.Of(
        $"east 5; west 5; X crossing live {(opposite ? "opposite" : "same")}", "X.a2 > east > X.b2", "X.b1 > west > X.a1");

    /// <summary>The folded oval with scissors crossovers in its waist.</summary>
    public static Layout FoldedOvalWithScissors(double loop = 8) => Track.Of(
        $"east {loop}; west {loop}; S scissors", "S.a2 > east > S.b2", "S.b1 > west > S.a1");

    /// <summary>A balloon at each end of a main line with a passing siding half way.</summary>
    public static Layout LoopToLoopWithSiding(double loop = 5, double main = 3) => Track.Of(
        $"westloop {loop}; m1 {main}; m2 {main}; r1 3; r2 3; eastloop {loop}; T1 wye; T2 wye; P1 right; P2 left",
        "T1.left > westloop > T1.right", "T1.points > m1 > P1.points", "P1.through > r1 > P2.through", "P1.diverging > r2 > P2.diverging",
        "P2.points > m2 > T2.points", "T2.left > eastloop > T2.right");

    /// <summary>A balloon at each end of a main line with some spurs along it.</summary>
    public static Layout LoopToLoopWithSpurs(int spurs)
    {
        string pieces = string.Join("; ", Enumerable.Range(1, spurs).Select(i => $"S{i} right; spur{i} 1; m{i} 2"));
        string main = string.Join(" ", Enumerable.Range(1, spurs).Select(i => $"m{i} > S{i}.points|S{i}.through >")) + " m0 > T2.points";
        return Track.Of(
            $"westloop 5; eastloop 5; T1 wye; T2 wye; m0 2; {pieces}",
            ["T1.left > westloop > T1.right", "T2.left > eastloop > T2.right", .. $"T1.points > {main}".Split('|'), .. Enumerable.Range(1, spurs).Select(i => $"S{i}.diverging > spur{i}")]);
    }

    /// <summary>The engine terminal of the classics: a wye whose tail leads to a turntable.</summary>
    public static Layout WyeWithTurntableTail(double tail = 3) => Track.Of(
        $"west 3; east 3; main 5; left 5; right 5; tail {tail}; stall 1; TT turntable 6; T1 left; T2 right; T3 wye",
        "west > T1.points", "T1.through > main > T2.through", "east > T2.points",
        "T1.diverging > left > T3.right", "T2.diverging > right > T3.left", "T3.points > tail > TT.t1", "TT.t3 > stall");
}

using WireUp.Layouts;

namespace WireUp.Testing;

/// <summary>The classical track plans whose answer is known, all of insulated turnouts unless asked otherwise.</summary>
internal static class Plans
{
    public static PlanBuilder Oval() => new PlanBuilder().Sections("ring").Chain("ring.b > ring.a");

    public static PlanBuilder Balloon(FrogKind frog = FrogKind.Insulated) => new PlanBuilder()
        .Turnouts("T1", frog: frog).Sections("spur loop")
        .Chain("T1.through > loop > T1.diverging").Chain("T1.points > spur");

    public static PlanBuilder LoopToLoop() => new PlanBuilder()
        .Turnouts("T1 T2").Sections("west main east")
        .Chain("T1.through > west > T1.diverging").Chain("T2.through > east > T2.diverging").Chain("T1.points > main > T2.points");

    public static PlanBuilder Wye(FrogKind frog = FrogKind.Insulated) => new PlanBuilder()
        .Turnouts("T1 T2 T3", TurnoutHand.Wye, frog).Sections("base left right tail west east")
        .Chain("T1.right > base > T2.left").Chain("T1.left > left > T3.right").Chain("T2.right > right > T3.left")
        .Chain("T3.points > tail").Chain("T1.points > west").Chain("T2.points > east");

    /// <summary>A ring with a siding beside it: left at one turnout and joined again at one that faces it.</summary>
    public static PlanBuilder OvalWithSiding(FrogKind frog = FrogKind.Insulated) => new PlanBuilder()
        .Turnouts("T1", TurnoutHand.Right, frog).Turnouts("T2", TurnoutHand.Left, frog).Sections("ring main siding")
        .Chain("T1.through > main > T2.through").Chain("T1.diverging > siding > T2.diverging").Chain("T2.points > ring > T1.points");

    /// <summary>A ring with a track across it that leaves and enters it in the same sense.</summary>
    public static PlanBuilder OvalWithCutOff() => new PlanBuilder()
        .Turnouts("T1 T2").Sections("near far cut")
        .Chain("T1.through > near > T2.points").Chain("T2.through > far > T1.points").Chain("T1.diverging > cut > T2.diverging");

    /// <summary>
    /// A folded oval: two tracks side by side in its waist, a loop at each end. Going round: north, east loop, south, west loop.
    /// </summary>
    public static PlanBuilder FoldedOval() => new PlanBuilder()
        .Sections("north east south west")
        .Chain("north.b > east > south > west > north.a");

    /// <summary>
    /// The folded oval with one crossover in its waist: a train leaves north facing east and goes on eastward along south,
    /// against the sense in which the ring runs.
    /// </summary>
    public static PlanBuilder FoldedOvalWithCrossover() => new PlanBuilder()
        .Turnouts("N S").Sections("north-east east south-east south-west west north-west cross")
        .Chain("N.through > north-east > east > south-east > S.points").Chain("S.through > south-west > west > north-west > N.points")
        .Chain("N.diverging > cross > S.diverging");

    /// <summary>The folded oval with two crossovers of opposite hand in its waist.</summary>
    public static PlanBuilder FoldedOvalWithTwoCrossovers() => new PlanBuilder()
        .Turnouts("N1 N2 S1 S2").Sections("north east south west cross-1 cross-2")
        .Chain("N1.through > north > N2.through").Chain("N2.points > east > S1.points").Chain("S1.through > south > S2.through")
        .Chain("S2.points > west > N1.points").Chain("N1.diverging > cross-1 > S1.diverging").Chain("N2.diverging > cross-2 > S2.diverging");

    /// <summary>Two rings, one inside the other, driven round in the same sense, with a crossover each way.</summary>
    public static PlanBuilder ConcentricOvals() => new PlanBuilder()
        .Turnouts("O1 O2 I1 I2").Sections("outer-1 outer-2 inner-1 inner-2 in out")
        .Chain("O1.through > outer-1 > O2.through").Chain("O2.points > outer-2 > O1.points")
        .Chain("I1.points > inner-1 > I2.points").Chain("I2.through > inner-2 > I1.through")
        .Chain("O1.diverging > in > I1.diverging").Chain("I2.diverging > out > O2.diverging");

    /// <summary>A ring that crosses itself on the level.</summary>
    public static PlanBuilder FigureEight() => new PlanBuilder()
        .Crossing("X").Sections("lobe-1 lobe-2").Chain("X.a2 > lobe-1 > X.b1").Chain("X.b2 > lobe-2 > X.a1");

    /// <summary>A balloon loop that fans out into three storage roads.</summary>
    public static PlanBuilder LoopWithFan() => new PlanBuilder()
        .Turnouts("T1 E1 E2 W1 W2").Sections("spur east west road-1 road-2 road-3")
        .Chain("T1.points > spur").Chain("T1.through > east > E1.points").Chain("T1.diverging > west > W1.points")
        .Chain("E1.through > road-1 > W1.through").Chain("E1.diverging > E2.points").Chain("W1.diverging > W2.points")
        .Chain("E2.through > road-2 > W2.through").Chain("E2.diverging > road-3 > W2.diverging");

    /// <summary>A wye whose tail ends in a balloon loop.</summary>
    public static PlanBuilder WyeWithBalloon() => Wye().Turnouts("T4").Sections("loop")
        .Chain("tail > T4.points").Chain("T4.through > loop > T4.diverging");
}

using System.Collections.Immutable;
using WireUp.Faults.Search;
using WireUp.Faults.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

public sealed class SingleFaultTests
{
    /// <summary>A turnout whose frog is fed by a contact: with it set through the frog follows leg B, set diverging leg A.</summary>
    private const string FrogOnContact = """
        wireup: 1
        name: Test
        longest-train: 0.5 m
        track:
          lead: { length: 1 m }
          main: { length: 1 m }
          side: { length: 1 m }
          T1: { turnout: right, frog: isolated, frog-feed: contact, number: 6 }
        joined: [ lead > T1.points, T1.through > main, T1.diverging > side ]
        wiring:
          boosters: { booster: { amps: 3 A, volts: 15 V } }
          districts: { d: { booster: booster, trip: 3 A } }
          bus: { d: { wire: 14 AWG, runs: [ booster > P1 1 m ] } }
          feeders:
            f1: { at: lead@0.5 m, bus: P1, wire: 20 AWG, length: 200 }
            f2: { at: main@0.5 m, bus: P1, wire: 20 AWG, length: 200 }
            f3: { at: side@0.5 m, bus: P1, wire: 20 AWG, length: 200 }
        """;

    [Fact]
    public void The_ohms_of_a_bad_joint_follow_from_the_volts_on_either_side()
    {
        // 30 ohm across 15 V: whole 14.6 V before the joint. Behind it 9 V: the load draws 9/30 A, and the joint drops the rest.
        Diagnosis diagnosis = Rank(Chain.Of(4), Chain.Volts("s1", 14.75), Chain.Volts("s2", 9.0),
            Along("s1.b/left", "s2.a/right", "s2", 5.6), Along("s1.b/right", "s2.a/left", "s2", 0.003));
        Fault best = Assert.Single(diagnosis.Faults[0].Parts);
        Assert.Equal("joint s1.b–s2.a, left rail", best.Element.Place);
        Assert.Equal(FaultState.HighResistance, best.State);
        Assert.InRange(best.Ohms!.Value.Ohms, 5.6 / (9.0 / 30) * 0.95, 5.6 / (9.0 / 30) * 1.05);
        Assert.InRange(best.Ohms!.Value.Ohms, best.LeastOhms!.Value.Ohms, best.MostOhms!.Value.Ohms);
        Assert.True(diagnosis.Faults[0].Probability > 0.9);
        Assert.Null(diagnosis.Contradiction);
    }

    [Fact]
    public void What_no_reading_tells_apart_shares_a_group()
    {
        Diagnosis diagnosis = Rank(Chain.Of(4), Chain.Volts("s1", 14.75), Chain.Volts("s2", 9.0));
        RankedFault[] joints = [.. diagnosis.Faults.Where(fault => fault.Parts[0] is { State: FaultState.HighResistance, Element.Kind: FaultElementKind.Joiner })];
        Assert.Equal(["joint s1.b–s2.a, left rail", "joint s1.b–s2.a, right rail"], joints.Take(2).Select(fault => fault.Parts[0].Element.Place).Order(StringComparer.Ordinal));
        Assert.Equal(joints[0].Group, joints[1].Group);
        Assert.Equal(joints[0].Probability, joints[1].Probability, 1e-3);
    }

    [Fact]
    public void Readings_of_a_sound_railway_say_that_nothing_is_wrong()
    {
        Layout layout = Chain.Of(4);
        Session session = Session.Open(layout, Chain.Readings(Chain.Volts("s0", 0), Chain.Volts("s3", 0)), FaultPriors.Usual)!;
        double[] healthy = session.Singles.Healthy();
        Diagnosis diagnosis = Rank(layout, Chain.Volts("s0", Math.Round(healthy[0], 2)), Chain.Volts("s3", Math.Round(healthy[1], 2)));
        Assert.True(diagnosis.NothingWrong > 0.5, $"{diagnosis.NothingWrong}");
        Assert.All(diagnosis.Readings, fit => Assert.InRange(fit.Sigmas, 0, 1));
    }

    [Fact]
    public void Readings_that_nothing_explains_are_told_with_the_one_that_fits_worst()
    {
        // Dead in the middle of a siding that is fed at one end, yet full volts before and behind.
        Diagnosis diagnosis = Rank(Chain.Of(6), Chain.Volts("s1", 14.7), Chain.Volts("s3", 3.0), Chain.Volts("s5", 14.3));
        Assert.NotNull(diagnosis.Contradiction);
        Assert.Equal(1, diagnosis.Contradiction.Reading);
        Assert.True(diagnosis.Contradiction.Sigmas > 4);
    }

    [Fact]
    public void There_is_always_a_runner_up()
    {
        Diagnosis diagnosis = Rank(Chain.Of(2), Chain.Volts("s1", 2.0), Along("s0.b/left", "s1.a/right", "s1", 12.6));
        Assert.True(diagnosis.Faults.Length >= 2);
        Assert.True(diagnosis.Faults[0].Probability > diagnosis.Faults[1].Probability);
    }

    [Fact]
    public void Pressing_that_helps_raises_the_odds_of_what_is_there()
    {
        MeterReading dead = new MeterReading.Running(Chain.Middle("s5"), RunningState.Dead);
        MeterReading pressed = new MeterReading.Pressed(new ReadingPlace.AtEnd(new(new("s3"), "b")), true);
        Assert.True(Of(Rank(Chain.Of(6), dead, pressed), "joint s3.b–s4.a, left rail") > 4 * Of(Rank(Chain.Of(6), dead), "joint s3.b–s4.a, left rail"));
    }

    [Fact]
    public void A_booster_that_is_weak_everywhere_is_told_from_a_bad_joint()
    {
        Diagnosis diagnosis = Rank(Chain.Of(3), Chain.Volts("s0", 10.5, loaded: false), Chain.Volts("s2", 10.5, loaded: false), Chain.Volts("s2", 10.2));
        Assert.Equal(FaultState.Weak, diagnosis.Faults[0].Parts[0].State);
    }

    [Fact]
    public void A_contact_that_closes_in_the_wrong_position_is_told_by_the_rail_its_frog_follows()
    {
        string[] readings =
        [
            "0.44 ohm from T1/frog to P1/A when T1.through", "no continuity from T1/frog to P1/B when T1.through",
            "0.44 ohm from T1/frog to P1/B when T1.diverging", "no continuity from T1/frog to P1/A when T1.diverging",
        ];
        Layout layout = LayoutFile.Read(FrogOnContact, "test").Layout!;
        ReadingSet set = Chain.Readings([.. readings.Select(text => LayoutWords.Sentence(layout, text).Value!)]);
        Diagnosis diagnosis = Rank(layout, FaultPriors.Usual, set);
        Fault best = Assert.Single(diagnosis.Faults[0].Parts);
        Assert.Equal((FaultElementKind.FrogContact, FaultState.Reversed), (best.Element.Kind, best.State));
        Assert.True(diagnosis.Faults[0].Probability > 0.9, $"{diagnosis.Faults[0].Probability}");
    }

    [Fact]
    public void Readings_that_fit_are_no_contradiction_even_where_a_cause_outside_the_layout_is_likelier()
    {
        // A buzzer says little: the fault that fits is rarer than a layout file that is wrong.
        Layout layout = LayoutFile.Read(FrogOnContact, "test").Layout!;
        Diagnosis diagnosis = Rank(layout, FaultPriors.Usual, Chain.Readings(
            LayoutWords.Sentence(layout, "continuity from T1/frog to P1/A when T1.through").Value!, LayoutWords.Sentence(layout, "no continuity from T1/frog to P1/B when T1.through").Value!));
        Assert.True(diagnosis.NotInModel > 0.5);
        Assert.All(diagnosis.Readings, fit => Assert.InRange(fit.Sigmas, 0, 1));
        Assert.Null(diagnosis.Contradiction);
    }

    [Fact]
    public void Two_bad_joints_are_found_together()
    {
        ReadingSet set = Chain.Readings(
            Chain.Volts("s1", 14.7), Chain.Volts("s3", 7.5), Along("s1.b/left", "s2.a/right", "s3", 3.7), Along("s1.b/right", "s2.a/left", "s3", 0.003),
            Along("s2.b/right", "s3.a/left", "s3", 3.5), Along("s2.b/left", "s3.a/right", "s3", 0.003));
        Diagnosis diagnosis = FaultSearch.Rank(Chain.Of(5), set, null, new() { Pairs = true }, TestContext.Current.CancellationToken)!;
        Assert.Equal(
            ["joint s1.b–s2.a, left rail", "joint s2.b–s3.a, right rail"],
            diagnosis.Faults[0].Parts.Select(part => part.Element.Place).Order(StringComparer.Ordinal));
        Assert.Equal(3.7 / 0.25, diagnosis.Faults[0].Parts.Single(part => part.Element.Place.Contains("left", StringComparison.Ordinal)).Ohms!.Value.Ohms, 1.0);
    }

    [Fact]
    public void Where_pairs_are_asked_for_one_fault_that_explains_all_is_told_without_a_second_that_explains_nothing()
    {
        ReadingSet set = Chain.Readings(
            Chain.Volts("s1", 14.7), Chain.Volts("s3", 11.1), Along("s1.b/left", "s2.a/right", "s3", 3.7), Along("s1.b/right", "s2.a/left", "s3", 0.003),
            Along("s2.b/right", "s3.a/left", "s3", 0.003), Along("s2.b/left", "s3.a/right", "s3", 0.003));
        Session session = Session.Open(Chain.Of(5), set, FaultPriors.Usual)!;
        Weighed weighed = Weighed.Of(session, new() { Pairs = true }, TestContext.Current.CancellationToken), folded = weighed.Folded(session.Hypotheses);
        int[] best = [.. folded.Explanations[0].Hypotheses];
        Assert.Equal("joint s1.b–s2.a, left rail", session.Hypotheses[Assert.Single(best)].Part.Element.Place);
        Assert.True(Of(weighed, best[0], 2) > 0.001, $"{Of(weighed, best[0], 2)}");
        Assert.Equal(0, Of(folded, best[0], 2));
        Assert.Equal(Of(weighed, best[0], 1) + Of(weighed, best[0], 2), Of(folded, best[0], 1), 1e-9);
        Assert.Equal(1, folded.NothingWrong + folded.NotInModel + folded.Probabilities.Sum(), 1e-9);

        static double Of(Weighed all, int hypothesis, int parts) => all.Explanations.Index()
            .Where(entry => entry.Item.Hypotheses.Length == parts && entry.Item.Hypotheses.Contains(hypothesis)).Sum(entry => all.Probabilities[entry.Index]);
    }

    [Fact]
    public void A_layout_without_a_booster_has_no_answer() =>
        Assert.Null(FaultSearch.Rank(Chain.Of(2) with { Wiring = Wiring.None }, ReadingSet.None, cancel: TestContext.Current.CancellationToken));

    [Theory]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(16)]
    public void Half_splitting_comes_out_by_itself_where_all_parts_are_alike(int joints)
    {
        // Both rails of every joint can be open, nothing else can: as many readings as halvings of 2·n parts.
        Layout layout = Chain.Of(joints + 1);
        FaultPriors priors = new() { Chances = Enum.GetValues<FaultElementKind>().ToImmutableDictionary(kind => kind, kind => kind == FaultElementKind.Joiner ? 0.01 : 1e-12) };
        string truth = $"joint s{joints / 2}.b–s{(joints / 2) + 1}.a, right rail";
        ReadingSet set = Chain.Readings(new MeterReading.Running(Chain.Middle($"s{joints}"), RunningState.Dead));
        int needed = 0;
        Diagnosis diagnosis = Rank(layout, priors, set);
        while (Of(diagnosis, truth) < 0.5)
        {
            Assert.True(needed++ < 10, "the search does not come to an end");
            set = set with { Readings = set.Readings.Add(Truth(layout, truth, diagnosis.Next.MaxBy(next => next.Bits)!.Reading)) };
            diagnosis = Rank(layout, priors, set);
        }

        Assert.Equal((int)Math.Ceiling(Math.Log2(2 * joints)), needed);
    }

    private static Diagnosis Rank(Layout layout, params MeterReading[] readings) => Rank(layout, FaultPriors.Usual, Chain.Readings(readings));

    private static Diagnosis Rank(Layout layout, FaultPriors priors, ReadingSet set) =>
        FaultSearch.Rank(layout, set, priors, new() { MostNext = 1000, Most = 40 }, TestContext.Current.CancellationToken)!;

    private static double Of(Diagnosis diagnosis, string place) =>
        diagnosis.Faults.Where(fault => fault.Parts[0].Element.Place == place).Sum(fault => fault.Probability);

    private static MeterReading Along(string from, string to, string load, double volts) =>
        new MeterReading.VoltsAlong(Point(from), Point(to), UnitsNet.ElectricPotential.FromVolts(volts)) { Load = new(Chain.Middle(load), UnitsNet.ElectricCurrent.FromAmperes(0.5)) };

    private static ReadingPoint.AtEnd Point(string text)
    {
        string[] parts = text.Split('.', '/');
        return new(new(new(new(parts[0]), parts[1]), parts[2] == "left" ? RailSide.Left : RailSide.Right));
    }

    /// <summary>What a good meter shows where one part is open.</summary>
    private static MeterReading Truth(Layout layout, string place, MeterReading asked)
    {
        Session session = Session.Open(layout, ReadingSet.None, FaultPriors.Usual)!;
        int h = session.Hypotheses.ToList().FindIndex(item => item.Part.Element.Place == place && item.State == FaultState.Open);
        SessionReading reading = session.Builder.Of(asked)!;
        double value = Math.Abs(reading.Probe.Healthy + session.Case(reading.Probe.Circuit).Respondents.Respond(reading.Probe, h).Change(Respondents.OpenSiemens));
        return asked switch
        {
            MeterReading.Volts volts => volts with { Shown = UnitsNet.ElectricPotential.FromVolts(value) },
            MeterReading.VoltsAlong volts => volts with { Shown = UnitsNet.ElectricPotential.FromVolts(value) },
            MeterReading.Ohms ohms => ohms with { Shown = UnitsNet.ElectricResistance.FromOhms(Math.Min(value + Meter.LeadOhms, Meter.MostOhms)) },
            _ => throw new InvalidOperationException($"not asked for: {asked}"),
        };
    }
}

using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Tests.Exact;

/// <summary>What a log teaches, by the formula of docs/faults.md.</summary>
public sealed class FaultHistoryTests
{
    private const double C = 20, A = 100;

    private static readonly ImmutableArray<FaultElement> Parts =
    [
        .. Enumerable.Range(1, 30).Select(i => new FaultElement(FaultElementKind.Joiner, $"joint {i}", Reach.Above)),
        .. Enumerable.Range(1, 10).Select(i => new FaultElement(FaultElementKind.Feeder, $"feeder {i}", Reach.Below)),
    ];

    private static readonly FaultPriors Even = FaultPriors.Usual with
    {
        Chances = ImmutableDictionary<FaultElementKind, double>.Empty.Add(FaultElementKind.Joiner, 0.01).Add(FaultElementKind.Feeder, 0.01),
    };

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static LoggedFault Logged(FaultElementKind kind, string part) => new(part, kind, new(2026, 3, 1), "mended");

    [Fact]
    public void The_weights_are_those_of_the_table() =>
        Assert.Equal((C, A), (Constants.Get("fault-log-kind-weight").Value, Constants.Get("fault-log-part-weight").Value));

    [Fact]
    public void A_logged_fault_makes_its_kind_and_its_part_more_likely_and_others_less()
    {
        FaultPriors learned = FaultHistory.Learn(Parts, Even, new([Logged(FaultElementKind.Joiner, "joint 3")]));

        // Shares 0.75 and 0.25; n = 1: chance p·(C + n_k/s)/(C + n).
        Assert.Equal(0.01 * (C + (1 / 0.75)) / (C + 1), learned.Chances[FaultElementKind.Joiner], 1e-12);
        Assert.Equal(0.01 * C / (C + 1), learned.Chances[FaultElementKind.Feeder], 1e-12);
        Assert.Equal((A + 30) / (A + 1), learned.PlaceFactors["joint 3"], 1e-12);
        Assert.Equal(A / (A + 1), learned.PlaceFactors["joint 4"], 1e-12);
        Assert.False(learned.PlaceFactors.ContainsKey("feeder 1"));
    }

    [Fact]
    public void The_expected_number_of_faults_stays_what_it_was()
    {
        FaultLog log = new([Logged(FaultElementKind.Joiner, "joint 3"), Logged(FaultElementKind.Joiner, "joint 3"), Logged(FaultElementKind.Feeder, "feeder 9")]);
        FaultPriors learned = FaultHistory.Learn(Parts, Even, log);
        double sum = Parts.Sum(part => learned.Chances[part.Kind] * learned.PlaceFactors.GetValueOrDefault(part.Place, 1));
        Assert.Equal(Parts.Length * 0.01, sum, 1e-12);
    }

    [Fact]
    public void Faults_logged_one_after_the_other_teach_what_all_of_them_teach_at_once()
    {
        // With a uniform log the posterior shares are those of the counts, whatever the order: conjugate.
        ImmutableArray<LoggedFault> faults = [Logged(FaultElementKind.Feeder, "feeder 2"), Logged(FaultElementKind.Joiner, "joint 1"), Logged(FaultElementKind.Feeder, "feeder 2")];
        FaultPriors one = FaultHistory.Learn(Parts, Even, new(faults)), other = FaultHistory.Learn(Parts, Even, new([.. faults.Reverse()]));
        Assert.Equal(one.Chances.OrderBy(pair => pair.Key), other.Chances.OrderBy(pair => pair.Key));
        Assert.Equal(one.PlaceFactors.OrderBy(pair => pair.Key, StringComparer.Ordinal), other.PlaceFactors.OrderBy(pair => pair.Key, StringComparer.Ordinal));
    }

    [Fact]
    public void A_part_that_is_no_longer_there_counts_for_its_kind_only()
    {
        FaultPriors learned = FaultHistory.Learn(Parts, Even, new([Logged(FaultElementKind.Joiner, "joint that went")]));
        Assert.True(learned.Chances[FaultElementKind.Joiner] > 0.01);
        Assert.All(learned.PlaceFactors, pair => Assert.Equal(A / (A + 1), pair.Value, 1e-12));
    }

    [Fact]
    public void Without_a_log_nothing_is_learned() =>
        Assert.Same(FaultPriors.Usual, FaultHistory.Learn(SmallLayout.Layout, FaultPriors.Usual, FaultLog.None));

    [Fact]
    public void A_joint_that_failed_before_is_suspected_first()
    {
        ReadingSet set = ReadingSet.None with
        {
            Readings = [.. new[] { "14.4 V at spur-3@0.5 m", "5 V at spur-3@0.5 m under 0.5 A" }.Select(text => LayoutWords.Sentence(SmallLayout.Layout, text).Value!)],
        };
        const string Second = "joint spur-2.b–spur-3.a, right rail";
        FaultPriors learned = FaultHistory.Learn(SmallLayout.Layout, FaultPriors.Usual, new([Logged(FaultElementKind.Joiner, Second)]));
        RankedFault before = FaultSearch.Rank(SmallLayout.Layout, set, cancel: Cancel)!.Faults.First(fault => fault.Parts is [{ Element.Place: Second }]);
        RankedFault after = FaultSearch.Rank(SmallLayout.Layout, set, learned, cancel: Cancel)!.Faults[0];
        Assert.Equal(Second, after.Parts[0].Element.Place);
        Assert.True(after.Probability > before.Probability);
    }
}

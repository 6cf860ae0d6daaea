using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Circuits.Tests.Support;
using WireUp.Faults.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Properties;

public sealed class PosteriorTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 16)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Probabilities_sum_to_one(int seed)
    {
        (Layout layout, ReadingSet set) = Random(seed);
        Diagnosis diagnosis = FaultSearch.Rank(layout, set, null, new() { Pairs = seed % 3 == 0, MostNext = 0 }, TestContext.Current.CancellationToken)!;
        double sum = diagnosis.NothingWrong + diagnosis.NotInModel + diagnosis.Unlisted + diagnosis.Faults.Sum(fault => fault.Probability);
        Assert.Equal(1, sum, 1e-9);
        Assert.All(diagnosis.Faults, fault => Assert.InRange(fault.Probability, 0, 1));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void The_order_in_which_things_are_written_changes_nothing(int seed)
    {
        (Layout layout, ReadingSet set) = Random(seed);
        Layout turned = layout with
        {
            Track = [.. layout.Track.Reverse()],
            Joints = [.. layout.Joints.Reverse()],
            Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders.Reverse()], Gaps = [.. layout.Wiring.Gaps.Reverse()] },
        };
        AssertSame(ByPlace(layout, set), ByPlace(turned, set with { Readings = [.. set.Readings.Reverse()] }));
    }

    [Fact]
    public void Names_change_nothing()
    {
        ImmutableSortedDictionary<string, double> one = ByPlace(Chain.Of(5), Chain.Readings(Chain.Volts("s1", 14.7), Chain.Volts("s3", 8)));
        ImmutableSortedDictionary<string, double> other = ByPlace(Chain.Of(5, "track-"), Chain.Readings(Chain.Volts("track-1", 14.7), Chain.Volts("track-3", 8)));
        AssertSame(one, other.ToImmutableSortedDictionary(pair => pair.Key.Replace("track-", "s", StringComparison.Ordinal), pair => pair.Value));
    }

    [Fact]
    public void A_layout_fed_the_other_way_round_has_the_mirror_image_of_the_answer()
    {
        Layout layout = Chain.Of(5), mirrored = layout with
        {
            Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders.Select(feeder => feeder with { Swap = true })] },
        };
        ReadingSet set = Chain.Readings(Chain.Volts("s1", 14.7), Chain.Volts("s3", 8));
        ImmutableSortedDictionary<string, double> joints = ByPlace(layout, set).Where(pair => pair.Key.StartsWith("joint", StringComparison.Ordinal)).ToImmutableSortedDictionary();
        ImmutableSortedDictionary<string, double> turned = ByPlace(mirrored, set).Where(pair => pair.Key.StartsWith("joint", StringComparison.Ordinal))
            .ToImmutableSortedDictionary(pair => pair.Key.Contains("left", StringComparison.Ordinal) ? pair.Key.Replace("left", "right", StringComparison.Ordinal) : pair.Key.Replace("right", "left", StringComparison.Ordinal), pair => pair.Value);
        AssertSame(joints, turned);
    }

    /// <summary>A random layout with volts read at its probes that may or may not make sense.</summary>
    private static (Layout Layout, ReadingSet Set) Random(int seed)
    {
        (Layout layout, PowerOptions options) = RandomPlans.Make(seed);
        Random random = new(seed + 500);
        return (layout, Chain.Readings(
        [
            .. options.Probes.Take(4).Select(place => new MeterReading.Volts(new ReadingPlace.Along(place), UnitsNet.ElectricPotential.FromVolts(Math.Round(15 * random.NextDouble(), 2)))
            {
                Load = random.Next(2) == 0 ? null : new(new ReadingPlace.Along(place), UnitsNet.ElectricCurrent.FromAmperes(0.5)),
            }),
        ]));
    }

    private static ImmutableSortedDictionary<string, double> ByPlace(Layout layout, ReadingSet set) =>
        FaultSearch.Rank(layout, set, null, new() { Most = int.MaxValue, LeastProbability = 1e-5, MostNext = 0 }, TestContext.Current.CancellationToken)!
            .Faults.GroupBy(fault => $"{fault.Parts[0].Element.Place} {fault.Parts[0].State}", StringComparer.Ordinal)
            .ToImmutableSortedDictionary(group => group.Key, group => group.Sum(fault => fault.Probability), StringComparer.Ordinal);

    private static void AssertSame(ImmutableSortedDictionary<string, double> one, ImmutableSortedDictionary<string, double> other)
    {
        Assert.NotEmpty(one);
        Assert.All(one.Where(pair => pair.Value > 1e-4), pair => Assert.Equal(pair.Value, other[pair.Key], 1e-6 + (1e-3 * pair.Value)));
    }
}

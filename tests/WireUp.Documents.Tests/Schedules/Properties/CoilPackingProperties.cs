using System.Collections.Immutable;
using CsCheck;

namespace WireUp.Documents.Tests.Schedules.Properties;

/// <summary>Pieces on coils, against a search through every way of putting few pieces onto coils.</summary>
public sealed class CoilPackingProperties
{
    private static readonly Gen<long[]> Few = Gen.Long[1, 12].Array[1, 8];

    [Fact]
    public void Few_pieces_are_packed_onto_as_few_coils_as_any_way_takes() => Few.Sample(
        lengths =>
        {
            CoilPacking packing = CoilPacking.Of([.. lengths], 12);
            int fewest = Fewest([.. lengths], []);
            Assert.Equal(fewest, packing.Coils.Length);
            Assert.Equal(fewest, packing.AtLeast);
        },
        iter: 500,
        threads: 1);

    [Fact]
    public void Where_first_fit_takes_one_coil_too_many_the_search_finds_the_better_packing()
    {
        // First fit: 5 4 | 3 3 3 | 2, three coils; 5 3 2 | 4 3 3 is two.
        CoilPacking packing = CoilPacking.Of([4, 3, 5, 3, 2, 3], 10);
        Assert.Equal(2, packing.Coils.Length);
        Assert.Equal([0, 1, 2, 3, 4, 5], packing.Coils.SelectMany(coil => coil).Order());
    }

    [Fact]
    public void No_bound_is_more_than_what_first_fit_takes_and_none_less_than_the_sum() => Gen.Long[1, 1000].Array[1, 80].Sample(
        lengths =>
        {
            CoilPacking packing = CoilPacking.Of([.. lengths], 1000);
            Assert.InRange(packing.AtLeast, (int)Math.Ceiling(lengths.Sum() / 1000.0), packing.Coils.Length);
            Assert.All(packing.Coils, coil => Assert.True(coil.Sum(i => lengths[i]) <= 1000));
            Assert.Equal(Enumerable.Range(0, lengths.Length), packing.Coils.SelectMany(coil => coil).Order());
        },
        iter: 200,
        threads: 1);

    [Theory]
    [InlineData(3, 6L, 6L, 6L)] // three pieces over half a coil: a coil each, though their sum would do with two
    [InlineData(2, 10L, 5L, 5L)]
    [InlineData(3, 8L, 8L, 3L, 1L)] // the small one fits beside a large one, the middle one beside none
    public void The_bound_counts_pieces_that_cannot_share_a_coil(int bound, params long[] lengths) =>
        Assert.Equal(bound, CoilPacking.Bound([.. lengths], 10));

    /// <summary>Every way: the first piece goes onto each open coil it fits on, or onto a new one.</summary>
    private static int Fewest(ImmutableArray<long> lengths, ImmutableArray<long> left)
    {
        if (lengths.IsEmpty) return left.Length;
        int best = Fewest(lengths[1..], left.Add(12 - lengths[0]));
        for (int i = 0; i < left.Length; i++)
        {
            if (left[i] >= lengths[0]) best = Math.Min(best, Fewest(lengths[1..], left.SetItem(i, left[i] - lengths[0])));
        }

        return best;
    }
}

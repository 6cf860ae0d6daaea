using System.Collections.Frozen;
using CsCheck;
using WireUp.Layouts.Comparing;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Properties;

/// <summary>What must hold of comparisons of layouts by chance, with everything the format has.</summary>
public sealed class ComparisonPropertyTests
{
    private static readonly Gen<(int Seed, int Size)> Cases = Gen.Select(Gen.Int[0, int.MaxValue - 1], Gen.Int[1, 12]);

    [Fact]
    public void A_layout_written_and_read_back_does_not_differ() => Cases.Sample(
        given =>
        {
            Layout layout = RandomLayout.Make(given.Seed, given.Size);
            Assert.Empty(LayoutComparison.Of(layout, LayoutFile.Read(LayoutFile.Write(layout), "test").Layout!).Differences);
        },
        iter: 150,
        threads: 1);

    [Fact]
    public void What_half_of_the_wiring_lacks_is_new_and_nothing_else() => Cases.Sample(
        given =>
        {
            Layout whole = RandomLayout.Make(given.Seed, given.Size);
            Layout half = RandomLayout.Half(whole, given.Seed);
            LayoutDifference[] more = [.. LayoutComparison.Of(half, whole).Differences], less = [.. LayoutComparison.Of(whole, half).Differences];
            Assert.Equal(Wires(whole) - Wires(half), more.Count(one => one.Part is LayoutPart.BusRun or LayoutPart.Feeder && one.Kind == DifferenceKind.Added));
            Assert.Equal(Names(more, DifferenceKind.Added), Names(less, DifferenceKind.Removed));
            Assert.Equal(Names(more, DifferenceKind.Removed), Names(less, DifferenceKind.Added));
        },
        iter: 150,
        threads: 1);

    [Fact]
    public void Names_of_pieces_are_all_that_differs_after_renaming_and_no_pair_is_a_wrong_one() => Cases.Sample(
        given =>
        {
            Layout layout = RandomLayout.Make(given.Seed, given.Size);
            Random random = new(given.Seed);
            FrozenDictionary<PieceId, PieceId> names = layout.Track.Where(_ => random.Next(4) == 0)
                .ToFrozenDictionary(piece => piece.Id, piece => new PieceId($"other-{random.Next()}-{piece.Id.Name}"));
            LayoutComparison comparison = LayoutComparison.Of(layout, new RenamedLayout(names).Of(layout));
            Assert.All(comparison.Renamed, pair => Assert.Equal(names[pair.Key], pair.Value));
            HashSet<PieceId> unsure = [.. names.Keys.Where(piece => !comparison.Renamed.ContainsKey(piece))];
            if (unsure.Count == 0) Assert.All(comparison.Differences, one => Assert.Equal(DifferenceKind.Renamed, one.Kind));
        },
        iter: 150,
        threads: 1);

    private static int Wires(Layout layout) => layout.Wiring.Feeders.Length + layout.Wiring.Buses.Sum(bus => bus.Runs.Length);

    private static string[] Names(IEnumerable<LayoutDifference> differences, DifferenceKind kind) =>
        [.. differences.Where(one => one.Kind == kind).Select(one => $"{one.Part} {one.Name}").Order(StringComparer.Ordinal)];
}

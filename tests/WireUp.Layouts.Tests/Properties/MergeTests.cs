using CsCheck;
using UnitsNet;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Properties;

/// <summary>Two edits of one layout by chance, made without knowing of each other.</summary>
public sealed class MergeTests
{
    private static readonly string[] Styles = ["plain", "windows", "no last line end", "byte order mark", "deep indent"];

    private static readonly Gen<(int Seed, int Size, int Style)> Cases =
        Gen.Select(Gen.Int[0, int.MaxValue - 1], Gen.Int[1, 12], Gen.Int[0, Styles.Length - 1]);

    [Fact]
    public void Edits_of_different_entries_are_both_there_whichever_side_is_asked() => Cases.Sample(
        given =>
        {
            Layout seen = RandomLayout.Make(given.Seed, given.Size) with { Benchwork = Benchwork.None };
            Layout mine = Edited(seen, 0, given.Seed), theirs = Edited(seen, 1, given.Seed), both = Edited(mine, 1, given.Seed);
            string Text(Layout layout) => TextStyles.Rewrite(LayoutFile.Write(layout), given.Style == 1 ? "plain" : Styles[given.Style], 0)
                .Replace("\n", given.Style == 1 ? "\r\n" : "\n", StringComparison.Ordinal);
            foreach ((Layout one, Layout other) in new[] { (mine, theirs), (theirs, mine) })
            {
                LayoutMerge merge = LayoutMerge.Of(Text(seen), Text(one), Text(other));
                Assert.True(merge is LayoutMerge.Joined, $"{merge}\n{Text(seen)}\n---- one\n{Text(one)}\n---- other\n{Text(other)}");
                string text = ((LayoutMerge.Joined)merge).Text;
                Layout read = LayoutFile.Read(text, "test").Layout!;
                Assert.Empty(LayoutComparison.Of(read, both).Differences);
            }
        },
        iter: 150,
        threads: 1);

    [Fact]
    public void What_both_changed_is_named_the_same_from_whichever_side() => Cases.Sample(
        given =>
        {
            Layout seen = RandomLayout.Make(given.Seed, given.Size);
            if (seen.Track.OfType<Piece.Section>().FirstOrDefault() is not { } both) return;
            string before = LayoutFile.Write(seen);
            string mine = LayoutFile.Write(Longer(Edited(seen, 0, given.Seed), both.Id, 10)), theirs = LayoutFile.Write(Longer(Edited(seen, 1, given.Seed), both.Id, 20));
            LayoutMerge.Clash clash = Assert.IsType<LayoutMerge.Clash>(LayoutMerge.Of(before, mine, theirs));
            Assert.Equal([$"track: {both.Id}"], clash.Entries);
            Assert.Equal(clash.Entries, Assert.IsType<LayoutMerge.Clash>(LayoutMerge.Of(before, theirs, mine)).Entries);
        },
        iter: 100,
        threads: 1);

    [Fact]
    public void An_edit_joined_with_nothing_is_that_edit() => Cases.Sample(
        given =>
        {
            Layout seen = RandomLayout.Make(given.Seed, given.Size);
            string before = LayoutFile.Write(seen), after = LayoutFile.Write(Edited(seen, 0, given.Seed));
            Assert.Equal(after, Assert.IsType<LayoutMerge.Joined>(LayoutMerge.Of(before, after, before)).Text);
            Assert.Equal(after, Assert.IsType<LayoutMerge.Joined>(LayoutMerge.Of(before, before, after)).Text);
            Assert.Equal(after, Assert.IsType<LayoutMerge.Joined>(LayoutMerge.Of(before, after, after)).Text);
        },
        iter: 60,
        threads: 1);

    /// <summary>Every second section made longer by chance, every second feeder and gap taken away, and a piece added.</summary>
    private static Layout Edited(Layout layout, int turn, int seed)
    {
        HashSet<string> mine = [.. layout.Track.Select(piece => piece.Id.Name).Where(name => !name.StartsWith("added-", StringComparison.Ordinal))
            .Concat(layout.Wiring.Feeders.Select(feeder => feeder.Name))
            .Concat(layout.Wiring.Gaps.Select(gap => gap.ToString())).Where(name => Chance(name, seed) % 4 == turn)];
        return layout with
        {
            Track =
            [
                .. layout.Track.Select(piece => piece is Piece.Section section && mine.Contains(section.Id.Name) ? Longer(section, 3) : piece),
                new Piece.Section(new($"added-{turn}"), Length.FromMillimeters(700)),
            ],
            Wiring = layout.Wiring with
            {
                Feeders = [.. layout.Wiring.Feeders.Where(feeder => !mine.Contains(feeder.Name))],
                Gaps = [.. layout.Wiring.Gaps.Where(gap => !mine.Contains(gap.ToString()))],
            },
        };
    }

    private static Layout Longer(Layout layout, PieceId id, double millimetres) => layout with
    {
        Track = [.. layout.Track.Select(piece => piece is Piece.Section section && piece.Id == id ? Longer(section, millimetres) : piece)],
    };

    private static Piece.Section Longer(Piece.Section section, double millimetres) =>
        section with { Length = section.Length + Length.FromMillimeters(millimetres) };

    private static int Chance(string name, int seed) => new Random(name.Aggregate(seed, (sum, letter) => unchecked((sum * 31) + letter))).Next(1000);
}

using System.Collections.Immutable;
using CsCheck;
using WireUp.Documents.Drawings;

namespace WireUp.Documents.Tests.Scenes.Properties;

public sealed class DashProperties
{
    private static readonly Gen<ImmutableArray<ScenePoint>> Lines =
        Gen.Select(Gen.Double[0, 100], Gen.Double[0, 100], (x, y) => new ScenePoint(x, y)).Array[2, 12].Select(points => points.ToImmutableArray());

    [Fact]
    public void Dashes_and_the_gaps_between_them_are_as_long_as_the_line() => Lines.Sample(
        line =>
        {
            ImmutableArray<ImmutableArray<ScenePoint>> dashes = [.. DashPattern.Split(line, [2.4, 0.8])];
            double total = Length(line), inked = dashes.Sum(Length);
            Assert.InRange(inked, (0.75 * total) - 1e-6, (0.75 * total) + 0.6 + 1e-6); // 2.4 of every 3.2, the last may be cut short
            Assert.All(dashes[..^1], dash => Assert.Equal(2.4, Length(dash), 1e-6));
        },
        iter: 300,
        threads: 1);

    [Fact]
    public void What_is_cut_off_at_a_window_lies_in_it_and_what_lies_in_it_is_kept() => Lines.Sample(
        line =>
        {
            SceneBox window = new(20, 30, 70, 80);
            ImmutableArray<ImmutableArray<ScenePoint>> parts = [.. Clip.Line(line, window)];
            Assert.All(parts.SelectMany(part => part), point => Assert.True(window.Grow(1e-9).Holds(point)));
            Assert.All(line.Where(point => window.Grow(-1e-9).Holds(point)), point => Assert.Contains(parts, part => part.Contains(point)));
        },
        iter: 300,
        threads: 1);

    private static double Length(ImmutableArray<ScenePoint> line) => line.Skip(1).Zip(line, (one, other) => one.DistanceTo(other)).Sum();
}

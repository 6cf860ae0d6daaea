using CsCheck;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Schedules.Properties;

public sealed class CutListProperties
{
    [Fact]
    public void Every_piece_is_cut_once_and_no_coil_is_overdrawn() =>
        Gen.Int[1, 12_000].Array[1, 60].Sample(
            lengths =>
            {
                Schedule schedule = new([.. lengths.Select(Wire)]);
                CutGroup group = Assert.Single(CutList.Of(schedule, Length.FromMeters(10)).Groups);

                Assert.Equal(schedule.Wires.Select(wire => wire.Id).Order(), group.Pieces.Select(piece => piece.Id).Order());
                Assert.All(group.Coils, coil => Assert.True(coil.Used.Meters <= 10 + 1e-9 || coil.Pieces.Length == 1));
                int fewest = (int)Math.Ceiling(lengths.Where(length => length <= 10_000).Sum() / 10_000.0);
                int coils = group.Coils.Count(coil => coil.Used.Meters <= 10 + 1e-9);
                Assert.True(coils <= Math.Max(1, 2 * fewest), $"{coils} coils where {fewest} would be the least");
            },
            iter: 200,
            threads: 1);

    private static ScheduledWire Wire(int millimetres, int index) => new($"w{index}", WireKind.Bus, "d", "x", "y", new Wire.Metric(1.5))
    {
        Leg = "A",
        Colour = "RD",
        Length = Length.FromMillimeters(millimetres),
        CutLength = Length.FromMillimeters(millimetres),
    };
}

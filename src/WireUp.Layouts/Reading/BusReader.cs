using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>bus:</c>, the runs of each district, and sees that each of them hangs on its booster.</summary>
internal sealed class BusReader(ReadContext context, DeviceNames devices)
{
    private const int MostConnectors = 1000;

    public BusPoints Points { get; } = new();

    public ImmutableArray<Bus> Read(MapReader wiring)
    {
        ImmutableArray<Bus>.Builder buses = ImmutableArray.CreateBuilder<Bus>();
        foreach (TextEntry entry in wiring.Named("bus", "a mapping of buses by district"))
        {
            string district = entry.Key.Value;
            bool isKnown = devices.Districts.TryGetValue(district, out string? booster);
            if (!isKnown)
            {
                context.Add(LayoutRules.UnknownName, entry.Key.Start, district, $"there is no district \"{ProblemList.Shorten(district)}\"",
                    context.Expect(district, devices.Districts.Keys));
            }

            MapReader map = new(context, entry.Value, FormatKeys.Bus, entry.Key.Start);
            ImmutableArray<WrittenRun> runs = ReadRuns(map);
            AddPoints(runs, district);
            buses.Add(new Bus(district, booster is null ? [] : new BusTree(context, booster).Order(runs))
            {
                Spacing = map.Quantity("spacing", QuantityKinds.Length, Range.WireSpacing),
            });
        }

        return buses.ToImmutable();
    }

    private ImmutableArray<WrittenRun> ReadRuns(MapReader map)
    {
        Wire? wire = map.Scalar(map.Find("wire"), WireText.Example) is { } text ? context.Wire(text.Value, text.At(0)) : null;
        bool needsWire = !map.Has("wire");
        ImmutableArray<WrittenRun>.Builder runs = ImmutableArray.CreateBuilder<WrittenRun>();
        foreach (TextNode node in map.List("runs", $"a list of runs, for instance [main > P1 2.0 m]"))
        {
            if (node is not TextNode.Scalar { IsNull: false } scalar || RunText.Split(scalar) is not { } written)
            {
                string shown = node is TextNode.Scalar single ? $"\"{ProblemList.Shorten(single.Value)}\"" : node.Shape;
                context.Add(LayoutRules.WrongShape, node.Start, (node as TextNode.Scalar)?.Value ?? "", $"{shown} is not a run of bus", RunText.Example);
                Points.IsPartial = true;
                continue;
            }

            if (written.Wire is null && needsWire)
            {
                context.Add(LayoutRules.MissingKey, scalar.At(0), scalar.Value, "the run has no wire, and its bus names none",
                    $"\"wire:\" in the bus, or the wire behind the length: {WireText.Example}");
                needsWire = false;
            }

            runs.Add(ReadRun(written, wire));
        }

        return runs.ToImmutable();
    }

    private WrittenRun ReadRun(RunText written, Wire? busWire)
    {
        Length? length = context.Quantity(written.Length.Text, written.Length.At, QuantityKinds.Length, Range.WireLength);
        Wire? wire = written.Wire is { } own ? context.Wire(own.Text, own.At) : busWire;
        int? connectors = written.Connectors is { } count ? context.Whole(count.Text, count.At, 0, MostConnectors) : 0;
        BusRun run = new(written.From.Text, written.To.Text, length ?? Length.Zero, wire ?? new Wire.Awg(0)) { Connectors = connectors ?? 0 };
        return new WrittenRun(run, written.From, written.To);
    }

    private void AddPoints(ImmutableArray<WrittenRun> runs, string district)
    {
        foreach (ChainPart point in runs.SelectMany(run => new[] { run.From, run.To }))
        {
            if (devices.Boosters.Contains(point.Text))
            {
                continue;
            }

            if (!Names.IsTight(point.Text))
            {
                context.Add(LayoutRules.BadName, point.At, point.Text, $"\"{ProblemList.Shorten(point.Text)}\" cannot be the name of a bus point",
                    "letters, digits, hyphens and underscores");
                Points.IsPartial = true;
            }
            else if (Points.DistrictOf(point.Text) is { } owner && owner != district)
            {
                context.Add(LayoutRules.NameTwice, point.At, point.Text, $"the point \"{point.Text}\" is in the bus of district \"{owner}\" already",
                    "a name that no other bus uses");
            }
            else
            {
                Points.Add(point.Text, district);
            }
        }
    }
}

/// <summary>A run with the places where its points are written.</summary>
internal readonly record struct WrittenRun(BusRun Run, ChainPart From, ChainPart To);

using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads the tree of a layout file into a <see cref="Layout"/>, part by part in the order in which they depend on each other.</summary>
internal sealed class LayoutReader(ReadContext context, MapReader root)
{
    /// <summary>What some editors put before the first character of a file.</summary>
    public const char ByteOrderMark = '\uFEFF';

    /// <summary>Reads a text. The layout is null when a problem of severity error was found.</summary>
    public static LayoutReading Read(string text, string fileName)
    {
        ProblemList problems = new(fileName);
        TextNode? tree = TextTreeBuilder.Build(text.StartsWith(ByteOrderMark) ? text[1..] : text, problems);
        Layout? layout = tree is null ? null : Read(tree, problems);
        if (tree is null && !problems.HasErrors)
        {
            problems.Add(LayoutRules.WrongShape, new(1, 1, 0), "", "the file is empty", "a layout, beginning with \"wireup: 1\"");
        }

        return new LayoutReading(problems.HasErrors ? null : layout, problems.InOrder()) { Blank = layout is { Track.IsEmpty: true } && problems.HasOnly(TrackReader.NoTrack) ? layout : null };
    }

    private static Layout Read(TextNode tree, ProblemList problems)
    {
        ReadContext context = new(problems);
        MapReader root = new(context, tree, FormatKeys.Root, tree.Start);
        context.BareUnit = root.Word<int>("units", [.. Words.Units.Select((unit, i) => (unit, i))]) is { } unit ? Words.Units[unit] : "mm";
        context.Control = root.Word("control", Words.Control) ?? ControlSystem.Command;
        return new LayoutReader(context, root).Read();
    }

    private Layout Read()
    {
        CheckVersion();
        ScaleRow scale = ReadScale();
        LayoutDefaults defaults = new DefaultsReader(context).Read(root.Find("defaults"));
        UnitsNet.Length pickup = root.Quantity("shortest-pickup", QuantityKinds.Length, Range.Wheelbase) ?? Usual.Of(scale.Pickup);
        PieceTable pieces = new TrackReader(context, defaults).Read(root);
        JoinedTrack joined = new JoinedReader(context, pieces).Read(root, defaults);
        Stock stock = new StockReader(context, scale, pickup).Read(root.Find("stock"));
        UnitsNet.Length longest = ReadLongestTrain(stock);
        WishReader wishes = new(context, pieces);
        LengthStyle lengths = root.Word("lengths", Words.Lengths) ?? LengthStyles.OfUnit(context.BareUnit);
        (ImmutableArray<PieceId> noFeeder, ImmutableArray<PieceId> noGap, ImmutableArray<PieceId> stops) = wishes.ReadSpots(root.Find("spots"));
        return new Layout
        {
            Name = root.Scalar(root.Require("name", "the railway's name"), "the railway's name")?.Value ?? "",
            Scale = scale.Name,
            Control = context.Control,
            LongestTrain = longest,
            ShortestPickup = pickup,
            MaxDrop = root.Quantity("max-drop", QuantityKinds.Percent, Range.Drop) ?? Usual.MaxDrop,
            MaxFeederDistance = root.Quantity("max-feeder-distance", QuantityKinds.Length, Range.TrackLength) ?? Usual.MaxFeederDistance,
            Defaults = defaults,
            Track = pieces.Track,
            Joints = joined.Joints,
            Wiring = new WiringReader(context, scale, pieces, joined).Read(root.Find("wiring")),
            Stock = stock,
            DistrictsWanted = wishes.ReadDistricts(root),
            Wishes = wishes.ReadWishes(root.Find("wishes")),
            NoFeeder = noFeeder,
            NoGap = noGap,
            Stops = stops,
            Benchwork = new BenchworkReader(context, pieces).Read(root.Find("benchwork")),
            FaultPriors = new FaultPriorReader(context).Read(root.Find("fault-priors")),
            Lengths = lengths,
            WireSizes = root.Word("wire-sizes", Words.WireSizes) ?? Usual.WireSizes(lengths),
            Papers = new PapersReader(context).Read(root.Find("papers")),
            Picture = new PictureReader(context).Read(root.Find("picture")),
        };
    }

    private void CheckVersion()
    {
        if (root.Scalar(root.Require("wireup", "1"), "the version of the format, 1") is { } version && version.Value != "1")
        {
            context.Add(LayoutRules.WrongVersion, version.At(0), version.Value,
                $"\"{ProblemList.Shorten(version.Value)}\" is not a version of the format that this program reads", "1");
        }
    }

    private ScaleRow ReadScale()
    {
        int? found = root.Word<int>("scale", [.. ScaleTable.All.Select((row, i) => (row.Name, i))]);
        return found is null ? ScaleTable.Get("HO") : ScaleTable.All[found.Value];
    }

    /// <summary>The longest train as stated, or else the longest of those listed.</summary>
    private UnitsNet.Length ReadLongestTrain(Stock stock)
    {
        if (!root.Has("longest-train") && !stock.Trains.IsEmpty)
        {
            return stock.Trains.Select(train => train.Length).Max();
        }

        UnitsNet.Length longest = root.RequireQuantity("longest-train", QuantityKinds.Length, Range.TrackLength) ?? UnitsNet.Length.Zero;
        if (longest > UnitsNet.Length.Zero && stock.Trains.FirstOrDefault(train => train.Length > longest) is { } tooLong)
        {
            TextNode.Scalar value = (TextNode.Scalar)root.Find("longest-train")!.Value;
            context.Add(LayoutRules.TrainTooLong, value.Start, value.Value, $"train \"{tooLong.Name}\" is longer than the longest train",
                $"at least {LengthText.Write(tooLong.Length)}");
        }

        return longest;
    }
}

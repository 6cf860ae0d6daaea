using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads what has the ends a1, a2, b1, b2: crossings, slips and scissors crossovers.</summary>
internal sealed class CrossingReader(ReadContext context, LayoutDefaults defaults)
{
    private readonly FrogReader _frogs = new(context, defaults);

    public Piece.Crossing? ReadCrossing(PieceId id, MapReader map)
    {
        Angle? angle = map.RequireQuantity("crossing", QuantityKinds.Degrees, Range.CrossingAngle);
        ReadFrog frog = _frogs.Read(map);
        _frogs.OnlyWhere(frog.Kind == FrogKind.Live, map, "phase",
            $"\"phase\" says which frogs of a live crossing are joined for good, but the frogs are {FrogReader.InWords(map, frog.Kind)}",
            "\"frog: live\" beside \"phase\"");
        Piece.Crossing crossing = new(id, angle ?? Angle.Zero, frog.Kind)
        {
            Feed = frog.Feed,
            OppositePhase = map.Word("phase", Words.CrossingPhase) ?? false,
            Length = map.Quantity("length", QuantityKinds.Length, Range.Fitting),
            DeadLength = map.Quantity("dead-length", QuantityKinds.Length, Range.Fitting),
        };
        return angle is null ? null : crossing;
    }

    public Piece.Slip? ReadSlip(PieceId id, MapReader map)
    {
        bool? isDouble = map.Word("slip", Words.Slip);
        ReadFrog frog = _frogs.Read(map);
        _frogs.OnlyWhere(frog.Feed == FrogFeed.Contact, map, "frog-drive", "\"frog-drive\" says what moves the contacts of the frogs, but there are none",
            "\"frog-feed: contact\" beside \"frog-drive\"");
        Piece.Slip slip = new(id, isDouble ?? false, frog.Kind)
        {
            Feed = frog.Feed,
            Drive = map.Word("frog-drive", Words.SlipDrive) ?? SlipDrive.OtherEnd,
            Angle = map.Quantity("angle", QuantityKinds.Degrees, Range.CrossingAngle),
            Length = map.Quantity("length", QuantityKinds.Length, Range.Fitting),
            DeadLength = map.Quantity("dead-length", QuantityKinds.Length, Range.Fitting),
        };
        return isDouble is null ? null : slip;
    }

    public Piece.Scissors ReadScissors(PieceId id, MapReader map)
    {
        ReadFrog frog = _frogs.Read(map);
        return new Piece.Scissors(id, frog.Kind)
        {
            Feed = frog.Feed,
            Angle = ReadScissorsAngle(map),
            Length = map.Quantity("length", QuantityKinds.Length, Range.Fitting),
            DeadLength = map.Quantity("dead-length", QuantityKinds.Length, Range.Fitting),
        };
    }

    /// <summary>The angle, or null where somebody who does not know it writes <c>true</c>.</summary>
    private static Angle? ReadScissorsAngle(MapReader map) => map.Find("scissors")?.Value is TextNode.Scalar { Value: "true" }
        ? null
        : map.RequireQuantity("scissors", QuantityKinds.Degrees, Range.CrossingAngle);
}

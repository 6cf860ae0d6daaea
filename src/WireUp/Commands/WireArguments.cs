using System.Collections.Immutable;
using System.Globalization;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Commands;

/// <summary>Wire on hand as typed: sizes separated by commas, each with or without the price of a metre behind an equals sign.</summary>
internal static class WireArguments
{
    /// <summary>Reads them.</summary>
    /// <exception cref="InputRefused">A size or price cannot be read, or only some sizes have one.</exception>
    public static ImmutableArray<WireOnHand> Read(string? typed)
    {
        ImmutableArray<WireOnHand> wires = typed is null ? [] : [.. typed.Split(',').Select(One)];
        return wires.All(wire => wire.PricePerMetre is null) || wires.All(wire => wire.PricePerMetre is not null)
            ? wires
            : throw new InputRefused($"--wire '{typed}': some sizes have a price and some have none; expected a price for each, or for none");
    }

    private static WireOnHand One(string typed)
    {
        string[] parts = typed.Split('=', 2);
        Wire wire = Common.Value(LayoutWords.Wires(parts[0]), $"--wire '{typed.Trim()}'")[0];
        return new(wire, parts.Length > 1 ? Price(parts[1]) : null);
    }

    private static double Price(string typed) =>
        double.TryParse(typed, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out double price)
            && price is > 0 and <= 1000
                ? price
                : throw new InputRefused($"--wire '{typed.Trim()}' is no price of a metre; expected a number above 0 and up to 1000, in whatever money");
}

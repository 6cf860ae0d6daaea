using System.Collections.Frozen;

namespace WireUp.Layouts.Quantities;

/// <summary>How a number in some unit becomes one in the base unit: (x + Offset) · Numerator / Denominator.</summary>
internal readonly record struct UnitFactor(double Numerator, double Denominator = 1, double Offset = 0)
{
    public double ToBase(double number) => (number + Offset) * Numerator / Denominator;
}

/// <summary>A kind of quantity: its name, the words for its units, and how it is made from a number in its base unit.</summary>
internal sealed record QuantityKind<T>(string Name, string Example, FrozenDictionary<string, UnitFactor> Units, Func<double, T> Make)
    where T : struct
{
    /// <summary>The unit that <see cref="Lesser"/> may follow: feet; empty where there is no such pair.</summary>
    public string Greater { get; init; } = "";

    /// <summary>The unit of which twelve make one <see cref="Greater"/>: inches.</summary>
    public string Lesser { get; init; } = "";

    /// <summary>The number in the base unit; <paramref name="bare"/> is the unit of a number without one, or null when there must be one.</summary>
    public QuantityFault TryRead(string text, string? bare, out double value)
    {
        value = 0;
        if (QuantityText.Split(text) is not { } parts || parts.Count > 2)
        {
            return QuantityFault.NotNumber;
        }

        QuantityFault fault = Convert(parts[0], bare, out value);
        if (fault != QuantityFault.None || parts.Count == 1)
        {
            return fault;
        }

        return AddLesser(parts[0], parts[1], ref value);
    }

    private QuantityFault AddLesser(NumberWithUnit first, NumberWithUnit second, ref double value)
    {
        bool isPair = Greater.Length > 0 && IsUnit(first, Greater) && IsUnit(second, Lesser) && second.Number is >= 0 and < 12;
        if (!isPair)
        {
            return QuantityFault.NotNumber;
        }

        // Counted in whole inches, so that "7 ft 6 in" is the same number as "90 in".
        double inches = (Math.Abs(first.Number) * 12) + second.Number;
        value = Units[Lesser].ToBase(double.IsNegative(first.Number) ? -inches : inches);
        return QuantityFault.None;
    }

    private bool IsUnit(NumberWithUnit part, string unit) => Units.TryGetValue(part.Unit, out UnitFactor factor) && factor == Units[unit];

    private QuantityFault Convert(NumberWithUnit part, string? bare, out double value)
    {
        value = 0;
        string? unit = part.Unit.Length > 0 ? part.Unit : bare;
        if (unit is null)
        {
            return QuantityFault.NoUnit;
        }

        if (!Units.TryGetValue(unit, out UnitFactor factor))
        {
            return QuantityFault.WrongUnit;
        }

        value = factor.ToBase(part.Number);
        return QuantityFault.None;
    }
}

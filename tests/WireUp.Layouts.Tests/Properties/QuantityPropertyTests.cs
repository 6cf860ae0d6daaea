using CsCheck;
using WireUp.Layouts.Quantities;

namespace WireUp.Layouts.Tests.Properties;

public sealed class QuantityPropertyTests
{
    [Fact]
    public void Any_length_written_is_read_back_the_same() =>
        Gen.Double[-1e4, 1e4].Sample(metres =>
            QuantityKinds.Length.TryRead(LengthText.Write(metres), null, out double read) == QuantityFault.None && read.Equals(metres + 0.0), threads: 1);

    [Fact]
    public void Any_bare_length_written_is_read_back_the_same_in_millimetres() =>
        Gen.Double[-1e4, 1e4].Sample(metres =>
            QuantityKinds.Length.TryRead(LengthText.WriteBare(metres), "mm", out double read) == QuantityFault.None && read.Equals(metres + 0.0), threads: 1);

    [Fact]
    public void Any_length_told_in_feet_and_inches_is_read_back_within_half_of_its_fraction() =>
        Gen.Double[-1e3, 1e3].Sample(metres =>
            IsNear(LengthStyle.Feet.Measure(metres), metres, 0.0254 / 16) && IsNear(LengthStyle.Feet.Mark(metres), metres, 0.0254 / 32), threads: 1);

    private static bool IsNear(string told, double metres, double within) =>
        QuantityKinds.Length.TryRead(told, null, out double read) == QuantityFault.None && Math.Abs(read - metres) <= within + 1e-9;

    [Fact]
    public void No_text_makes_the_parser_throw() =>
        Gen.String[Gen.Char["0123456789 .,/-+eE'\"mftinV%°"], 0, 12].Sample(text =>
        {
            QuantityFault fault = QuantityKinds.Length.TryRead(text, "mm", out double value);
            WireText.TryRead(text, out _, out _);
            return fault != QuantityFault.None || !double.IsNaN(value);
        }, iter: 20_000, threads: 1);
}

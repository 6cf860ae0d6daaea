using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>Reads numbers one after the other as SVG writes them, with or without anything between them: <c>1-2.5.5e1</c> are three.</summary>
internal sealed class SvgNumbers(string text)
{
    private int _at;

    /// <summary>Whether nothing but blanks and commas is left.</summary>
    public bool IsAtEnd
    {
        get
        {
            PassBlanks();
            return _at >= text.Length;
        }
    }

    /// <summary>The next number, or null where none is next.</summary>
    public double? Number()
    {
        PassBlanks();
        int end = _at;
        if (Is(end, '+') || Is(end, '-')) end++;
        int digits = Digits(ref end);
        if (Is(end, '.'))
        {
            end++;
            digits += Digits(ref end);
        }

        if (digits == 0)
        {
            return null;
        }

        int exponent = end + 1;
        if ((Is(end, 'e') || Is(end, 'E')) && ((Is(exponent, '+') || Is(exponent, '-')) ? IsDigit(++exponent) : IsDigit(exponent)))
        {
            end = exponent;
            Digits(ref end);
        }

        double number = double.Parse(text.AsSpan(_at, end - _at), NumberStyles.Float, CultureInfo.InvariantCulture);
        _at = end;
        return double.IsFinite(number) ? number : null;
    }

    /// <summary>A flag of an arc, one digit, which the next number may touch.</summary>
    public bool? Flag()
    {
        PassBlanks();
        if (!Is(_at, '0') && !Is(_at, '1'))
        {
            return null;
        }

        return text[_at++] == '1';
    }

    /// <summary>The next letter, or null where none is next.</summary>
    public char? Letter()
    {
        PassBlanks();
        return _at < text.Length && char.IsAsciiLetter(text[_at]) ? text[_at++] : null;
    }

    /// <summary>The letters that are next, none where something else is.</summary>
    public string Word()
    {
        PassBlanks();
        int from = _at;
        while (_at < text.Length && char.IsAsciiLetter(text[_at])) _at++;
        return text[from.._at];
    }

    /// <summary>Numbers in brackets; null where that is not what comes.</summary>
    public ImmutableArray<double>? InBrackets()
    {
        PassBlanks();
        if (!Is(_at, '('))
        {
            return null;
        }

        _at++;
        ImmutableArray<double> numbers = All();
        PassBlanks();
        return Is(_at++, ')') ? numbers : null;
    }

    /// <summary>All numbers up to something that is none.</summary>
    public ImmutableArray<double> All()
    {
        ImmutableArray<double>.Builder numbers = ImmutableArray.CreateBuilder<double>();
        while (Number() is { } number) numbers.Add(number);
        return numbers.ToImmutable();
    }

    private void PassBlanks()
    {
        while (_at < text.Length && (char.IsWhiteSpace(text[_at]) || text[_at] == ',')) _at++;
    }

    private bool Is(int index, char c) => index < text.Length && text[index] == c;

    private bool IsDigit(int index) => index < text.Length && char.IsAsciiDigit(text[index]);

    private int Digits(ref int index)
    {
        int from = index;
        while (IsDigit(index)) index++;
        return index - from;
    }
}

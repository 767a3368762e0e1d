' Functions for cells: each hands its arguments to Python, where they are answered.
Option Compatible
Option Explicit

Private figures As Object, texts As Object, workings As Object

' What is left out is not stated: an argument that must be there would end the function at its first use, and leave the
' cell with 0, with which calculations go on. So would the rest of the arguments, where one before them is left out.
Function LOADWORTHY_AMPACITY_A(Optional size, Optional material, Optional insulation, ParamArray stated())
    Dim all
    all = joined(joined(named("size", size), named("material", material)), named("insulation", insulation))
    If Not IsMissing(insulation) Then all = joined(all, stated)
    LOADWORTHY_AMPACITY_A = figure("ampacity", "A", all)
End Function

Function LOADWORTHY_CORD_A(Optional cord, Optional size, Optional current_carrying, ParamArray stated())
    Dim all
    all = joined(joined(named("cord", cord), named("size", size)), named("current_carrying", current_carrying))
    If Not IsMissing(current_carrying) Then all = joined(all, stated)
    LOADWORTHY_CORD_A = figure("cord_ampacity", "A", all)
End Function

' By the resistance of direct current, which is what a batch of circuits is judged by.
Function LOADWORTHY_DROP_V(Optional size, Optional material, Optional length, Optional current, Optional supply, _
        Optional circuit, ParamArray stated())
    Dim wire, load, all
    wire = joined(joined(named("size", size), named("material", material)), named("length", length))
    load = joined(joined(named("current", current), named("supply", supply)), named("circuit", circuit))
    all = joined(joined(Array("method", "dc"), wire), load)
    If Not IsMissing(circuit) Then all = joined(all, stated)
    LOADWORTHY_DROP_V = figure("voltage_drop", "V", all)
End Function

' The smallest standard breaker that is not below what is required.
Function LOADWORTHY_BREAKER_A(Optional required, ParamArray stated())
    Dim all
    all = joined(Array("kind", "breaker"), named("required", required))
    If Not IsMissing(required) Then all = joined(all, stated)
    LOADWORTHY_BREAKER_A = figure("overcurrent_device", "A", all)
End Function

Function LOADWORTHY(Optional question, ParamArray stated())
    If IsNull(texts) Then texts = script("spoken")
    If IsMissing(question) Then
        LOADWORTHY = texts.invoke(Array("", Array()), Array(), Array())
    Else
        LOADWORTHY = texts.invoke(Array(question, stated), Array(), Array())
    End If
End Function

Function LOADWORTHY_WHY(Optional question, ParamArray stated())
    If IsNull(workings) Then workings = script("working")
    If IsMissing(question) Then
        LOADWORTHY_WHY = workings.invoke(Array("", Array()), Array(), Array())
    Else
        LOADWORTHY_WHY = workings.invoke(Array(question, stated), Array(), Array())
    End If
End Function

Private Function named(name, Optional value)
    If IsMissing(value) Then
        named = Array()
    Else
        named = Array(name, value)
    End If
End Function

Private Function figure(question, unit, stated)
    If IsNull(figures) Then figures = script("figure")
    figure = figures.invoke(Array(question, unit, stated), Array(), Array())
End Function

Private Function script(name)
    Dim factory, place
    factory = CreateUnoService("com.sun.star.script.provider.MasterScriptProviderFactory")
    place = "vnd.sun.star.script:loadworthy_macros.py$" & name & "?language=Python&location=user"
    script = factory.createScriptProvider("").getScript(place)
End Function

Private Function joined(first, rest)
    Dim all(), last, at
    last = UBound(first) + UBound(rest) + 1
    If last < 0 Then
        joined = Array()
        Exit Function
    End If
    ReDim all(last)
    For at = 0 To UBound(first)
        all(at) = first(at)
    Next
    For at = 0 To UBound(rest)
        all(UBound(first) + 1 + at) = rest(at)
    Next
    joined = all
End Function
